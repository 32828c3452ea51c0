/** What the gears are drawn as: teeth, pitch surfaces, or both. */
import { setView, useView } from "../store/view";
import css from "./transport.module.css";

const CHOICES = {
  teeth: { words: "Teeth", showTeeth: true, showSurfaces: false },
  surfaces: { words: "Pitch surfaces", showTeeth: false, showSurfaces: true },
  both: { words: "Both", showTeeth: true, showSurfaces: true },
} as const;

type Choice = keyof typeof CHOICES;

const isChoice = (value: string): value is Choice => Object.hasOwn(CHOICES, value);

export const ShowChoice = () => {
  const choice = useView(
    ({ showTeeth, showSurfaces }): Choice => (showTeeth ? (showSurfaces ? "both" : "teeth") : "surfaces"),
  );
  return (
    <label className={css.choice}>
      <span>Show</span>
      <select
        value={choice}
        onChange={({ target: { value } }) => {
          if (!isChoice(value)) return;
          const { showTeeth, showSurfaces } = CHOICES[value];
          setView({ showTeeth, showSurfaces });
        }}
      >
        {Object.entries(CHOICES).map(([key, { words }]) => (
          <option key={key} value={key}>
            {words}
          </option>
        ))}
      </select>
    </label>
  );
};
