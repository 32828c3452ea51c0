import { useId } from "react";
import { supplyWords } from "../../engine/explain/supply-words";
import type { UnitChoice } from "../../engine/units/choice";
import { quantityIn } from "../../engine/wording";
import { chooseUnits, systemSign, UNIT_CHOICES, type UnitSettings, useUnitSettings, useUnits } from "../../store/units";
import { Dialog } from "./dialog";
import { showDialog } from "./dialog-store";
import css from "./units-dialog.module.css";

type Key = keyof UnitSettings;

const LEGENDS: Readonly<Record<Key, string>> = {
  length: "Lengths",
  tooth: "Size of teeth",
  speed: "Speeds of turning",
  torque: "Torques",
  power: "Powers",
  force: "Forces",
  ratio: "Fraction of a ratio",
  figures: "Significant figures",
  decimal: "Decimal sign",
};

const SIGNS = { ".": "point, 1.5", ",": "comma, 1,5" } as const;

/** What a choice is called, where its own name doesn't say it. */
function wordsOf(key: Key, choice: string | number): string {
  if (choice === "module") return "module, mm";
  if (choice === "output") return "output teeth over input teeth: 20 to 50 teeth is 50/20";
  if (choice === "input") return "input teeth over output teeth: 20 to 50 teeth is 20/50";
  if (choice === "pitch") return "diametral pitch, 1/in";
  if (choice === "system") return `as the system has it: ${SIGNS[systemSign()]}`;
  if (key === "decimal") return SIGNS[choice as keyof typeof SIGNS];
  if (choice === "W") return "W (kW from 10\u202f000 W)";
  return choice === "hp" ? "hp (550 ft·lbf/s)" : String(choice);
}

const METRIC: Partial<UnitSettings> = { length: "mm", tooth: "module", torque: "N·m", power: "W", force: "N" };
const INCH: Partial<UnitSettings> = { length: "in", tooth: "pitch", torque: "lbf·ft", power: "hp", force: "lbf" };

/** A motor and a gear of nobody's, so that one sees what the choice does. */
const example = (units: UnitChoice): string =>
  `A gear ${quantityIn(63.5, "mm", units)} across, ${units.tooth === "pitch" ? "diametral pitch" : "module"} ` +
  `${quantityIn(2.54, "module", units)}. ${supplyWords({ shaft: "", role: "input", speed: 1450, torque: 7.5 }, units)}`;

/** Units, figures and decimal sign: chosen once, for everything on screen. */
export const UnitsDialog = () => {
  const settings = useUnitSettings();
  const units = useUnits();
  return (
    <Dialog title="Units" onClose={() => showDialog(null)}>
      <div className={css.all}>
        <button type="button" onClick={() => chooseUnits(METRIC)}>
          All metric
        </button>
        <button type="button" onClick={() => chooseUnits(INCH)}>
          All inch
        </button>
      </div>
      <div className={css.groups}>
        {(Object.keys(LEGENDS) as Key[]).map((key) => (
          <Group key={key} name={key} chosen={settings[key]} />
        ))}
      </div>
      <output className={css.example}>{example(units)}</output>
      <p className={css.note}>
        Any of these units, and more, can be typed into a field with its number. The file and the command line keep mm,
        module, rev/min, N·m, W and N.
      </p>
    </Dialog>
  );
};

const Group = ({ name, chosen }: { readonly name: Key; readonly chosen: string | number }) => {
  const id = useId();
  return (
    <fieldset className={css.group}>
      <legend>{LEGENDS[name]}</legend>
      {UNIT_CHOICES[name].map((choice) => (
        <label key={choice} className={css.choice}>
          <input
            type="radio"
            name={id}
            checked={choice === chosen}
            onChange={() => chooseUnits({ [name]: choice } as Partial<UnitSettings>)}
          />
          {wordsOf(name, choice)}
        </label>
      ))}
    </fieldset>
  );
};
