/** The transport bar: play, pause, step, reverse, speed, and how much slower than true speed it is shown. Keeps the clock running. */
import { Pause, Play, Repeat2, StepBack, StepForward } from "lucide-react";
import type { UnitChoice } from "../engine/units/choice";
import { figures } from "../engine/wording";
import { clockStore, reverse, setPlaying, setRate, step, useClock } from "../store/clock";
import { useIsHiding } from "../store/question";
import { useUnits } from "../store/units";
import { setView, useView } from "../store/view";
import { useTicking } from "./ticking";
import css from "./transport.module.css";

/** The slider runs over powers of ten: from a hundredth of the fastest that can be shown to all of it. */
const DECADES = 2;
const STEPS = 40;

/** "shown 32 times slower than it runs", or that it is shown at true speed. */
export function slowdownWords(slowdown: number, { decimalSign }: UnitChoice): string {
  if (slowdown >= 1) return "shown at true speed";
  const times = 1 / slowdown;
  return `shown ${times < 10 ? figures(times, 2, decimalSign) : figures(Math.round(times), 3)} times slower`;
}

const togglePlaying = (): void => setPlaying(!clockStore.getState().playing);

export const Transport = () => {
  useTicking();
  const playing = useClock((state) => state.playing);
  const direction = useClock((state) => state.direction);
  const rate = useClock((state) => state.rate);
  const slowdown = useClock((state) => state.slowdown);
  const place = Math.round(STEPS * (1 + Math.log10(rate) / DECADES));
  const units = useUnits();
  const words = useIsHiding() ? "stands still until the reveal" : slowdownWords(slowdown, units);
  return (
    <fieldset className={css.transport} aria-label="Transport">
      <button
        type="button"
        className={css.icon}
        onClick={() => step(-1)}
        title="Step back by one tooth"
        aria-label="Step back"
      >
        <StepBack size={20} aria-hidden="true" />
      </button>
      <button
        type="button"
        className={css.play}
        onClick={togglePlaying}
        title={playing ? "Pause (Space)" : "Play (Space)"}
        aria-label={playing ? "Pause" : "Play"}
      >
        {playing ? <Pause size={22} aria-hidden="true" /> : <Play size={22} aria-hidden="true" />}
      </button>
      <button
        type="button"
        className={css.icon}
        onClick={() => step(1)}
        title="Step on by one tooth"
        aria-label="Step forward"
      >
        <StepForward size={20} aria-hidden="true" />
      </button>
      <button
        type="button"
        className={css.icon}
        onClick={() => reverse()}
        aria-pressed={direction === -1}
        title="Run backwards"
        aria-label="Run backwards"
      >
        <Repeat2 size={20} aria-hidden="true" />
      </button>
      <Shown />
      <label className={css.speed}>
        <span>Speed</span>
        <input
          type="range"
          min={0}
          max={STEPS}
          value={place}
          aria-label="Speed shown"
          aria-valuetext={words}
          onChange={(event) => setRate(10 ** (DECADES * (Number(event.target.value) / STEPS - 1)))}
        />
      </label>
      <span className={css.words}>
        {words}
        {direction === -1 && ", backwards"}
      </span>
    </fieldset>
  );
};

const SHOWN = {
  both: { words: "show all", showTeeth: true, showSurfaces: true },
  teeth: { words: "show teeth", showTeeth: true, showSurfaces: false },
  surfaces: { words: "show surfaces", showTeeth: false, showSurfaces: true },
} as const;
type ShownName = keyof typeof SHOWN;

/** Teeth, the surfaces that roll on one another in their place, or both. */
const Shown = () => {
  const teeth = useView((state) => state.showTeeth);
  const surfaces = useView((state) => state.showSurfaces);
  return (
    <select
      className={css.button}
      aria-label="Show"
      title="Teeth, the pitch surfaces that roll on one another in their place, or both"
      value={teeth ? (surfaces ? "both" : "teeth") : "surfaces"}
      onChange={(event) => {
        const { showTeeth, showSurfaces } = SHOWN[event.target.value as ShownName];
        setView({ showTeeth, showSurfaces });
      }}
    >
      {Object.entries(SHOWN).map(([name, { words }]) => (
        <option key={name} value={name}>
          {words}
        </option>
      ))}
    </select>
  );
};
