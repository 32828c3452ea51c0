/** One chain of 10,000 stages, solved and still exact: its last speed is the product of all tooth ratios, as a fraction. */
import { hasTeeth } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import { chain } from "../support/random-drives";
import { measure, report } from "./measure";

const STAGES = 10_000;
const drive = chain(STAGES);

const gcd = (a: bigint, b: bigint): bigint => (b === 0n ? a : gcd(b, a % b));
/** The product of a list, by halves, so that the factors stay about equally long. */
const product = (list: readonly bigint[]): bigint => {
  if (list.length <= 1) return list[0] ?? 1n;
  const half = list.length >> 1;
  return product(list.slice(0, half)) * product(list.slice(half));
};

// Recomputed from the file alone: outside pairs turn opposite ways, each by driving teeth over driven teeth.
const teethOf = new Map(drive.gears.map((gear) => [gear.id, hasTeeth(gear) ? BigInt(gear.teeth) : 0n]));
const stages = Array.from({ length: STAGES }, (_, i) => [`g${i + 1}a`, `g${i + 1}b`] as const);
const over = product(stages.map(([driver]) => teethOf.get(driver) ?? 0n)) * 100n * (STAGES % 2 === 0 ? 1n : -1n);
const under = product(stages.map(([, driven]) => teethOf.get(driven) ?? 0n));
const common = gcd(over < 0n ? -over : over, under);

const time = measure(
  () => solve(drive),
  (solved) => {
    const last = solved.motion.speeds[STAGES];
    if (!last || last.n !== over / common || last.d !== under / common) throw new Error("The last speed is not exact.");
  },
  { rounds: 5, warmUp: 1 },
);
report({
  name: "solve one chain of 10,000 stages, exactly",
  value: time / 1000,
  unit: "s",
  against: null,
  ratio: null,
  target: "<= 2",
});
