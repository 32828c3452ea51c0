/**
 * The units, figures and decimal sign in which numbers are shown: chosen once for the whole page, kept in the browser and
 * never in the drive, whose file has units of its own.
 */
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { type DecimalSign, FILE_UNITS, type UnitChoice } from "../engine/units/choice";
import { speakIn } from "../engine/wording";
import { sayAnew } from "./document";

const KEY = "turnwise.units";

/** What somebody chose; the decimal sign may follow the system. */
export type UnitSettings = Omit<UnitChoice, "decimalSign"> & { readonly decimal: "system" | DecimalSign };

const DEFAULT: UnitSettings = (({ decimalSign: _, ...units }: UnitChoice): UnitSettings => ({
  ...units,
  decimal: "system",
}))(FILE_UNITS);

/** Every choice there is; the settings dialog offers these, and nothing else that was kept is taken. */
export const UNIT_CHOICES: { readonly [K in keyof UnitSettings]: readonly UnitSettings[K][] } = {
  length: ["mm", "in"],
  tooth: ["module", "pitch"],
  speed: ["rev/min", "rad/s"],
  torque: ["N·m", "lbf·ft"],
  power: ["W", "kW", "hp"],
  force: ["N", "lbf"],
  ratio: ["output", "input"],
  figures: [3, 4, 5, 6],
  decimal: ["system", ".", ","],
};

/** The decimal sign of the language that the browser is set to; a point where it is neither point nor comma. */
export function systemSign(languages: readonly string[] = globalThis.navigator?.languages ?? []): DecimalSign {
  try {
    const parts = new Intl.NumberFormat([...languages]).formatToParts(1.5);
    return parts.find(({ type }) => type === "decimal")?.value === "," ? "," : ".";
  } catch {
    return ".";
  }
}

const choiceOf = ({ decimal, ...units }: UnitSettings): UnitChoice => ({
  ...units,
  decimalSign: decimal === "system" ? systemSign() : decimal,
});

/** What was kept, each part of it only where it is one of the choices. */
function remembered(): UnitSettings {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(KEY) ?? "{}");
    if (typeof kept !== "object" || kept === null) return DEFAULT;
    const found = Object.entries(UNIT_CHOICES).filter(([key, choices]) =>
      (choices as readonly unknown[]).includes((kept as Record<string, unknown>)[key]),
    );
    return { ...DEFAULT, ...Object.fromEntries(found.map(([key]) => [key, (kept as Record<string, unknown>)[key]])) };
  } catch {
    return DEFAULT;
  }
}

interface UnitsState {
  readonly settings: UnitSettings;
  /** What everything that prints a number takes. */
  readonly units: UnitChoice;
}

const stateOf = (settings: UnitSettings): UnitsState => ({ settings, units: choiceOf(settings) });

export const unitsStore = createStore<UnitsState>()(() => stateOf(remembered()));

// Sentences of the engine follow the reader too.
speakIn(unitsStore.getState().units);
unitsStore.subscribe(({ units }, before) => {
  if (units === before.units) return;
  speakIn(units);
  sayAnew();
});

/** Chooses some of them and remembers all. */
export function chooseUnits(patch: Partial<UnitSettings>): void {
  const settings = { ...unitsStore.getState().settings, ...patch };
  unitsStore.setState(stateOf(settings));
  try {
    localStorage.setItem(KEY, JSON.stringify(settings));
  } catch {
    // Storage is forbidden: the choice lasts as long as the page.
  }
}

export const useUnits = (): UnitChoice => useStore(unitsStore, (state) => state.units);
export const useUnitSettings = (): UnitSettings => useStore(unitsStore, (state) => state.settings);
export const currentUnits = (): UnitChoice => unitsStore.getState().units;
