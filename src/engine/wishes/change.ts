/**
 * A change that was tried out: an edit, what it does, what it costs, and the drive that it gives. Nothing is offered
 * unless the drive was solved with it, what was wished was found met, and no error came in with it.
 */
import { type Body, bodiesOf, standIn } from "../checks/bodies";
import { type Edit, isRefused } from "../drive/commands/edit";
import type { Finding } from "../findings";
import { solve } from "../solve";
import type { Drive, Solved } from "../solved";
import { type Cost, costOf, type Difference, differenceOf } from "./cost";
import { alsoChanged } from "./told";

export type Means =
  | "input"
  | "member"
  | "side"
  | "idler"
  | "swap"
  | "one-gear"
  | "counts"
  | "planets"
  | "place"
  | "load";

/** What may be tried, before anybody knows whether it does what it should. */
export interface Proposal {
  /** Which sort of change it is: of each sort the smallest is offered before a second of another. */
  readonly means: Means;
  /** "Put an idler between a1 and b1" */
  readonly title: string;
  readonly edit: Edit;
  /** One sentence on what is done to the parts, where the title leaves something open. */
  readonly how?: string;
}

export interface Change {
  readonly edit: Edit;
  readonly title: string;
  /** What it changes at the shaft in question, was -> now, and how it is done. */
  readonly sentence: string;
  /** What else changes with it: other shafts' turning, shafts that move, new warnings. One sentence each. */
  readonly also: readonly string[];
  readonly cost: Cost;
  /** The drive that it gives. */
  readonly solved: Solved;
  readonly difference: Difference;
}

export type Answer = { readonly changes: readonly Change[] } | { readonly cannot: string };

export const MOST_ANSWERS = 3;

const keyOf = (finding: Finding): string => JSON.stringify([finding.code, [...finding.at].sort()]);

/** Findings of a severity that a drive has and the one before had not. */
export function newFindings(before: Solved, after: Solved, severity: Finding["severity"]): Finding[] {
  const known = new Set(before.findings.filter((finding) => finding.severity === severity).map(keyOf));
  return after.findings.filter((finding) => finding.severity === severity && !known.has(keyOf(finding)));
}

/** Gears that stand in one another and are not meshed with each other, as "a b" in document order of the ids' gears. */
function clashes({ drive }: Solved, bodies: readonly Body[], of: (body: Body) => boolean): Set<string> {
  const mates = new Set(drive.meshes.flatMap(({ gears: [a, b] }) => [`${a} ${b}`, `${b} ${a}`]));
  const found = new Set<string>();
  for (const body of bodies) {
    if (!of(body)) continue;
    for (const other of bodies) {
      const [a, b] = [drive.gears[body.gear]?.id, drive.gears[other.gear]?.id];
      if (other.shaft === body.shaft || mates.has(`${a} ${b}`) || found.has(`${b} ${a}`)) continue;
      if (standIn(body, other)) found.add(`${a} ${b}`);
    }
  }
  return found;
}

/** Whether a gear that is new, moved or recut stands in another where none did before. */
function standsInAnother(before: Solved, after: Solved, { touched }: Difference): boolean {
  const isTouched = ({ gear }: Body): boolean => touched.has(after.drive.gears[gear]?.id ?? "");
  const now = clashes(after, bodiesOf(after), isTouched);
  if (now.size === 0) return false;
  const wasThere = ({ gear }: Body): boolean => touched.has(before.drive.gears[gear]?.id ?? "");
  const then = clashes(before, bodiesOf(before), wasThere);
  return [...now].some((pair) => !then.has(pair) && !then.has(pair.split(" ").reverse().join(" ")));
}

/** Speeds known are worth more than speeds open; a jam is the least. */
const RANK: Readonly<Record<Solved["motion"]["status"], number>> = { determined: 3, free: 2, conflict: 1, locked: 0 };

export interface Asked {
  /** Index of the shaft that the wish is about. */
  readonly shaft: number;
  /** Whether the drive that a proposal gives is what was wished. */
  readonly isMet: (after: Solved) => boolean;
  /** Part by which what was asked for is missed (0.003 is 0.3 %): of two alike the nearer comes first. */
  readonly missedBy?: (after: Solved) => number;
  /** What changed at the shaft itself: "X was …, now …". */
  readonly tell: (after: Solved) => string;
}

/** Makes the edit and solves it; the drive that it gives, or null where it was refused. */
export function outcome(drive: Drive, edit: Edit): Solved | null {
  const result = edit(drive);
  return isRefused(result) || result === drive ? null : solve(result);
}

/** Tries one proposal out; null where it is refused, misses the wish, or brings an error or a clash with it. */
export function tryOut(solved: Solved, proposal: Proposal, asked: Asked): Change | null {
  const after = outcome(solved.drive, proposal.edit);
  if (!after || RANK[after.motion.status] < RANK[solved.motion.status] || !asked.isMet(after)) return null;
  if (newFindings(solved, after, "error").length > 0) return null;
  const difference = differenceOf(solved, after);
  if (standsInAnother(solved, after, difference)) return null;
  const warnings = newFindings(solved, after, "warning");
  const sentence = [proposal.how, asked.tell(after)].filter(Boolean).join(" ");
  return {
    edit: proposal.edit,
    title: proposal.title,
    sentence,
    also: alsoChanged(solved, after, difference, asked.shaft, warnings),
    cost: costOf(difference, warnings.length, asked.missedBy?.(after) ?? 0),
    solved: after,
    difference,
  };
}

/** Proposals tried out on a small drive at the most, at the least, and gears solved in all on a larger one. */
const MOST_TRIED = 150;
const LEAST_TRIED = 12;
const GEARS_SOLVED = 6000;

/**
 * The smallest changes of those that prove true, no two with the same title: of each sort of change the smallest first, then the
 * next ones. Sorted by what they cost.
 */
export function smallest(solved: Solved, proposals: readonly Proposal[], asked: Asked, most = MOST_ANSWERS): Change[] {
  const room = Math.min(MOST_TRIED, Math.max(LEAST_TRIED, Math.floor(GEARS_SOLVED / (solved.drive.gears.length + 1))));
  const found = new Map<string, Change & { readonly means: Means }>();
  for (const proposal of proposals.slice(0, room)) {
    if (found.has(proposal.title)) continue;
    const change = tryOut(solved, proposal, asked);
    if (change) found.set(proposal.title, { ...change, means: proposal.means });
  }
  const sorted = [...found.values()].sort((a, b) => a.cost.weight - b.cost.weight);
  const firsts = sorted.filter((change, i) => sorted.findIndex(({ means }) => means === change.means) === i);
  const others = sorted.filter((change) => !firsts.includes(change));
  const chosen = [...firsts, ...others].slice(0, most);
  return chosen.sort((a, b) => a.cost.weight - b.cost.weight);
}
