/** The words on screen for the state of a drive and for ports; the format's terms stand in the file and in hints. */
import type { PortRole } from "../drive/types";
import { sign } from "../motion/rational";
import type { Solved, Status } from "../solved";
import { shaftName } from "../wording";
import { asDifferential, differentialWords, gearSets } from "./gear-sets";

export interface StatusWords {
  /** "turns", "needs one more input", "jammed", "inputs disagree" */
  readonly short: string;
  /** One sentence: what that means and what to do. */
  readonly sentence: string;
  /** The format's own term. */
  readonly term: Status;
}

const COUNTS = ["no", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten"];
const countWord = (count: number): string => COUNTS[count] ?? String(count);

/** How many equations of differentials a sentence holds. */
const MOST_EQUATIONS = 3;

function freeWords(solved: Solved): StatusWords {
  const { missingInputs, speeds } = solved.motion;
  const count = Math.max(1, missingInputs);
  const inputs = `${countWord(count)} more ${count === 1 ? "input" : "inputs"}`;
  const open = gearSets(solved)
    .filter((set) => [set.carrier, ...set.centrals].some((shaft) => (speeds[shaft] ?? null) === null))
    .flatMap((set) => asDifferential(solved, set) ?? [])
    .slice(0, MOST_EQUATIONS)
    .map((differential) => differentialWords(solved, differential));
  const law = open.length > 0 ? `; until then only this holds: ${open.join("; ")}` : "";
  return {
    short: `needs ${inputs}`,
    sentence: `Not every speed is fixed yet: turn or hold ${count === 1 ? "one more shaft" : `${countWord(count)} more shafts`}${law}.`,
    term: "free",
  };
}

/** The state of a drive in words. */
export function statusWords(solved: Solved): StatusWords {
  const { status, speeds } = solved.motion;
  if (status === "free") return freeWords(solved);
  if (status === "locked") {
    return {
      short: "jammed",
      sentence:
        "The drive can't turn: its meshes ask for ways or speeds that can't both be, so take a mesh out or put an idler in.",
      term: status,
    };
  }
  if (status === "conflict") {
    const inputs = solved.drive.ports.filter((port) => port.role !== "output");
    const names = inputs.slice(0, 4).map((port) => shaftName(solved.drive, solved.index.shafts.get(port.shaft) ?? 0));
    return {
      short: "inputs disagree",
      sentence: `The inputs disagree: the teeth don't allow ${names.join(", ")}${inputs.length > 4 ? " and others" : ""} to turn or stand as given all at once, so let one of them go free.`,
      term: status,
    };
  }
  const turns = speeds.some((speed) => speed !== null && sign(speed) !== 0);
  return turns
    ? { short: "turns", sentence: "The drive turns, and the speed of every shaft is fixed.", term: status }
    : { short: "stands still", sentence: "Every shaft stands still: no input turns.", term: status };
}

/** What a port does, for the parts list and the cards. */
export const ROLE_WORDS: Readonly<Record<PortRole, { readonly short: string; readonly sentence: string }>> = {
  input: { short: "drives", sentence: "Something outside, a motor or a hand, turns this shaft at a given speed." },
  held: { short: "held still", sentence: "Something outside keeps this shaft from turning." },
  output: { short: "output", sentence: "This shaft turns a load outside." },
};
