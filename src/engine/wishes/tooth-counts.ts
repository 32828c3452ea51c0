/** Other whole tooth counts for one mesh (or two) on the way to a shaft, so that it turns so many times as fast. */
import { MODULES } from "../design/iso-54";
import { teethForRatio } from "../design/teeth-for-ratio";
import { type Edit, inTurn } from "../drive/commands/edit";
import { swapSizes } from "../drive/commands/mesh";
import { LIMITS } from "../drive/types";
import { divide, multiply, type Rational, rational, toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { Solved } from "../solved";
import { nameText, quantity, toothSizeWords } from "../wording";
import { recutBevels } from "./bevels";
import type { Means, Proposal } from "./change";
import { areToothed, isAlone, isRing, type Joint, remade, setTeeth } from "./parts";

/** Fewest teeth that are looked for: from 18 on no mate interferes (Bevan); fewer where the pair has fewer already. */
const LEAST = 18;
const MOST = 400;
/** Part by which a wish may be missed, and still count as met: the error is told. */
export const NEAR_ENOUGH = 0.02;

/** Teeth of the nearer and of the further gear. */
type Counts = readonly [near: number, far: number];

const farOf = ({ near }: Joint): 0 | 1 => (near === 0 ? 1 : 0);

/** Speed of the further gear over the nearer, its sign left aside. */
const ratioOf = (joint: Joint): Rational =>
  divide(exactSize(joint.gears[joint.near]), exactSize(joint.gears[farOf(joint)]));

/** Part by which counts miss the ratio near / far. */
const missOf = ([near, far]: Counts, wanted: number): number => Math.abs(near / far / wanted - 1);

/** Of some counts the one that comes nearest, if it comes near enough; of equals the first. */
function nearest(counts: Iterable<Counts>, wanted: number, least: number): Counts | null {
  let best: Counts | null = null;
  for (const one of counts) {
    if (!one.every((z) => Number.isInteger(z) && z >= least && z <= LIMITS.teeth)) continue;
    if (missOf(one, wanted) > NEAR_ENOUGH) continue;
    if (!best || missOf(one, wanted) < missOf(best, wanted) - 1e-12) best = one;
  }
  return best;
}

const both = (x: number): readonly number[] => [Math.floor(x), Math.ceil(x)];

/** The edit that gives a mesh other teeth: bevel gears keep their crossing, all others keep their module. */
function withCounts(solved: Solved, joint: Joint, [near, far]: Counts): Edit | null {
  const teeth = (joint.near === 0 ? [near, far] : [far, near]) as [number, number];
  if (joint.kind.needsShaftAngle) return recutBevels(solved, joint, { teeth });
  return inTurn(setTeeth(joint.gears[0].id, teeth[0]), setTeeth(joint.gears[1].id, teeth[1]));
}

const wordsOf = (joint: Joint, [near, far]: Counts): string =>
  `${nameText(joint.gears[joint.near].id)} ${near} and ${nameText(joint.gears[farOf(joint)].id)} ${far} teeth`;

/** What one mesh can do: trade sizes, one gear anew, both anew at the same distance, or any counts. */
export function otherCounts(solved: Solved, joint: Joint, times: Rational): Proposal[] {
  const { mesh, gears, kind } = joint;
  const wanted = multiply(ratioOf(joint), times);
  const q = toNumber(wanted);
  const names = `${nameText(gears[0].id)} and ${nameText(gears[1].id)}`;
  const proposals: Proposal[] = [];
  const isAlike = gears[0].kind === gears[1].kind;
  if (isAlike && Math.abs(toNumber(divide(rational(1n), ratioOf(joint))) / q - 1) <= NEAR_ENOUGH) {
    proposals.push({
      means: "swap",
      title: `Swap ${names}`,
      edit: swapSizes(mesh.id),
      how: "Pinion and wheel trade places, and both shafts stay.",
    });
  }
  if (!areToothed(gears)) return proposals;
  const far = farOf(joint);
  const [zn, zf] = [gears[joint.near].teeth, gears[far].teeth];
  const least = Math.min(LEAST, zn, zf);
  const take = (counts: Counts | null, means: Means, title: (counts: Counts) => string, how: string): void => {
    if (!counts || (counts[0] === zn && counts[1] === zf)) return;
    const edit = withCounts(solved, joint, counts);
    if (edit) proposals.push({ means, title: title(counts), edit, how });
  };
  const [nearAlone, farAlone] = [isAlone(solved, gears[joint.near]), isAlone(solved, gears[far])];
  const change = (side: 0 | 1) => (counts: Counts) =>
    `Give ${nameText(gears[side].id)} ${counts[side === joint.near ? 0 : 1]} teeth`;
  const from = ` in place of ${wordsOf(joint, [zn, zf])}.`;
  if (farAlone)
    take(
      nearest(
        both(zn / q).map((z) => [zn, z] as const),
        q,
        least,
      ),
      "one-gear",
      change(far),
      `${wordsOf(joint, [zn, zf])} until now.`,
    );
  if (nearAlone)
    take(
      nearest(
        both(zf * q).map((z) => [z, zf] as const),
        q,
        least,
      ),
      "one-gear",
      change(joint.near),
      `${wordsOf(joint, [zn, zf])} until now.`,
    );
  if (!nearAlone || !farAlone) return proposals;

  const give = (counts: Counts): string => `Give ${wordsOf(joint, counts)}`;
  if (!kind.needsShaftAngle) {
    const sum = isAlike ? zn + zf : isRing(gears[far]) ? zf - zn : zn - zf;
    take(nearest(sameDistance(joint, sum, q), q, least), "counts", give, `Both shafts stay where they are;${from}`);
    const module = otherModule(joint, sum * gears[0].module, wanted, least);
    if (module) proposals.push(module);
  }
  const stageRatio = Math.max(kind.needsShaftAngle ? 5 : 6, toNumber(ratioOf(joint)), 1 / toNumber(ratioOf(joint)));
  for (const { stages } of teethForRatio(wanted, { stages: 1, least, most: MOST, stageRatio, count: 2 })) {
    const [stage] = stages;
    if (stage) take(nearest([[stage.input, stage.output]], q, least), "counts", give, `Nearest by whole teeth,${from}`);
  }
  return proposals;
}

/** Counts of the same sum (in a ring of the same difference), so that the centre distance stays. */
function sameDistance(joint: Joint, sum: number, q: number): Counts[] {
  const far = farOf(joint);
  if (joint.gears[0].kind === joint.gears[1].kind) return both((sum * q) / (1 + q)).map((z) => [z, sum - z] as const);
  if (isRing(joint.gears[far])) return both(sum / (1 - q)).map((z) => [z - sum, z] as const);
  return both(sum / (q - 1)).map((z) => [z + sum, z] as const);
}

/** The exact ratio at the same centre distance with another module of the standard's series; null where none does it. */
function otherModule(joint: Joint, across: number, wanted: Rational, least: number): Proposal | null {
  const { gears } = joint;
  if (!areToothed(gears) || gears[0].kind !== gears[1].kind) return null;
  const own = gears[0].module;
  const order = MODULES.filter((module) => module !== own).sort((a, b) => Math.abs(a - own) - Math.abs(b - own));
  const parts = wanted.n + wanted.d;
  for (const module of order) {
    const sum = Math.round(across / module);
    if (Math.abs(sum * module - across) > 1e-9 * module || BigInt(sum) % parts !== 0n) continue;
    const k = BigInt(sum) / parts;
    const counts: Counts = [Number(wanted.n * k), Number(wanted.d * k)];
    if (Math.min(...counts) < least) continue;
    const teeth = joint.near === 0 ? counts : [counts[1], counts[0]];
    return {
      means: "counts",
      title: `Give ${wordsOf(joint, counts)} at ${toothSizeWords(module)}`,
      edit: inTurn(remade(gears[0].id, { teeth: teeth[0], module }), remade(gears[1].id, { teeth: teeth[1], module })),
      how: `Both shafts stay where they are; ${toothSizeWords(module)} in place of ${quantity(own, "module")}.`,
    };
  }
  return null;
}

/** Both of two meshes cut anew, for a ratio that one alone does not come near to. */
export function otherCountsOfTwo(solved: Solved, first: Joint, second: Joint, times: Rational): Proposal[] {
  const joints = [first, second];
  if (
    !joints.every(
      ({ gears, from }) => from !== null && areToothed(gears) && gears.every((gear) => isAlone(solved, gear)),
    )
  ) {
    return [];
  }
  const wanted = multiply(multiply(ratioOf(first), ratioOf(second)), times);
  return teethForRatio(wanted, { stages: 2, most: 100, count: 2 }).flatMap(({ stages, error }) => {
    const counts = stages.map(({ input, output }): Counts => [input, output]);
    const edits = joints.flatMap((joint, i) => withCounts(solved, joint, counts[i] as Counts) ?? []);
    if (edits.length < 2 || Math.abs(error) > NEAR_ENOUGH) return [];
    return [
      {
        means: "counts",
        title: `Give ${joints.map((joint, i) => wordsOf(joint, counts[i] as Counts)).join(", ")}`,
        edit: inTurn(...edits),
        how: "Both stages are cut anew.",
      },
    ];
  });
}
