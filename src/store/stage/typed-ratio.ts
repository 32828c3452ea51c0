/** Sizes of a pair from a ratio as somebody types it. */
import { parseRatio } from "../../engine/design/parse-ratio";
import { teethForRatio } from "../../engine/design/teeth-for-ratio";
import { equals, gcdNumber, type Rational, toNumber } from "../../engine/motion/rational";
import type { UnitChoice } from "../../engine/units/choice";
import { quantityIn, turnsWords } from "../../engine/wording";
import type { Candidate } from "./candidate";

export type TypedRatio =
  | {
      readonly ok: true;
      readonly sizes: readonly [number, number];
      /** How the text was read, and what the sizes give of it. */
      readonly words: string;
    }
  | { readonly ok: false; readonly words: string };

/** Most teeth tried beside a pinion that is already there. */
const MOST_TEETH = 400;
/** Larger to smaller in one stage; common practice, no source. */
const STAGE_RATIO = 6;
/** mm: a smooth wheel about as large as this is chosen where both are free. */
const USUAL_DIAMETER = 60;

/** Reads the ratio and finds sizes for it, the first gear's kept where it gives the ratio exactly or has to stay. */
export function sizesForRatio(text: string, candidate: Candidate, units: UnitChoice): TypedRatio {
  const read = parseRatio(text);
  if (!read.ok) return { ok: false, words: read.message };
  const understood = `${read.words} (${read.convention}).`;
  const found = candidate.hasTeeth
    ? teethFor(read.ratio, candidate, units)
    : diametersFor(read.ratio, candidate, units);
  if (typeof found === "string") return { ok: false, words: `${understood} ${found}` };
  return { ok: true, sizes: found.sizes, words: found.note ? `${understood} ${found.note}` : understood };
}

type Found = { readonly sizes: readonly [number, number]; readonly note: string | null } | string;

function teethFor(ratio: Rational, { sizes, gear }: Candidate, units: UnitChoice): Found {
  const value = toNumber(ratio);
  const spread = Math.max(value, 1 / value);
  const most = Math.max(MOST_TEETH, sizes[0]);
  const one = { stages: 1, count: 1, stageRatio: Math.max(STAGE_RATIO, spread) } as const;
  if (spread > STAGE_RATIO) {
    const [two] = teethForRatio(ratio, { stages: 2, count: 1 });
    const pairs = two?.stages.map(({ input, output }) => `${input} to ${output}`).join(", then ");
    return `One stage usually gives up to ${STAGE_RATIO} to 1: use two${pairs ? `, ${pairs}` : ""}.`;
  }
  // Beside a gear that is there fewer teeth than usual are better than none.
  const [kept] = teethForRatio(ratio, { ...one, input: sizes[0], most, ...(gear ? { least: 1 } : {}) });
  if (kept && (kept.isExact || gear)) return asFound(kept.stages[0], kept.ratio, ratio, units);
  const [free] = gear ? [] : teethForRatio(ratio, one);
  const best = free ?? kept;
  return best
    ? asFound(best.stages[0], best.ratio, ratio, units)
    : "No two tooth counts come near that ratio: try another.";
}

function asFound(
  stage: { input: number; output: number } | undefined,
  given: Rational,
  wanted: Rational,
  units: UnitChoice,
): Found {
  if (!stage) return "No two tooth counts come near that ratio: try another.";
  const note = equals(given, wanted)
    ? null
    : `The nearest: ${stage.input} to ${stage.output} teeth, ${turnsWords("the input", "the output", given, units)}.`;
  return { sizes: [stage.input, stage.output], note };
}

/** Whole millimetres where the ratio allows it. */
function diametersFor(ratio: Rational, { sizes, gear }: Candidate, units: UnitChoice): Found {
  const value = toNumber(ratio);
  const kept = sizes[0] / value;
  if (gear || Number.isInteger(kept)) {
    const second = Number(kept.toFixed(3));
    const note = Number.isInteger(second)
      ? null
      : `The second wheel: ${quantityIn(second, "mm", { ...units, figures: 6 })}.`;
    return { sizes: [sizes[0], second], note };
  }
  const [n, d] = [Number(ratio.n), Number(ratio.d)];
  const common = gcdNumber(n, d);
  const times = Math.max(1, Math.round(USUAL_DIAMETER / Math.min(n, d)));
  const whole = [(n / common) * times, (d / common) * times] as const;
  return Math.max(...whole) <= 2000
    ? { sizes: whole, note: null }
    : { sizes: [sizes[0], Number(kept.toFixed(3))], note: null };
}
