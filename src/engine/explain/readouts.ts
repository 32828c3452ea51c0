/**
 * The order of the readouts as the drive runs: the input's card, a token for the mesh ("20 drives 50"), the next card, branches, to
 * the outputs. Shafts that nothing joins to an input come at the end.
 */
import type { PortRole } from "../drive/types";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { driveWords, rollWords } from "./pair-words";
import { type Link, routeOf } from "./route";

/** What stands between two cards. */
export interface RunToken {
  /** Id of the mesh; null where a carrier links the two. */
  readonly mesh: string | null;
  /** "20 drives 50", "18 rolls on 60", "turns its carrier", "carries" */
  readonly words: string;
}

export interface RunNode {
  readonly shaft: string;
  readonly index: number;
  readonly role: PortRole | null;
  /** How this card is reached from the one before; null on the first of a run. */
  readonly via: RunToken | null;
  /** Branches, those on the way to an output last, so that the run ends with it. */
  readonly next: readonly RunNode[];
  /** False where no input is joined to this shaft. */
  readonly isDriven: boolean;
  /** Whether this shaft is an output or leads to one. */
  readonly leadsToOutput: boolean;
}

function tokenOf(solved: Solved, link: Link, units: UnitChoice): RunToken {
  if (link.kind === "carrier") return { mesh: null, words: link.isOutward ? "carries" : "turns its carrier" };
  const far = link.near === 0 ? 1 : 0;
  const pair = solved.index.gearsOfMesh[link.mesh];
  const [nearGear, farGear] = [solved.drive.gears[pair?.[link.near] ?? -1], solved.drive.gears[pair?.[far] ?? -1]];
  if (!nearGear || !farGear) return { mesh: null, words: "" };
  const isHeld = (side: 0 | 1): boolean => {
    const shaft = solved.index.shaftsOfMesh[link.mesh]?.[side] ?? -1;
    return solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]?.role === "held";
  };
  const driver = solved.load.meshes[link.mesh]?.driver ?? null;
  // A held gear drives nothing; and a load can drive backwards through a branch: say it as the power runs.
  const words = isHeld(far)
    ? rollWords(nearGear, farGear, units)
    : isHeld(link.near)
      ? rollWords(farGear, nearGear, units)
      : driver === far
        ? driveWords(farGear, nearGear, units)
        : driveWords(nearGear, farGear, units);
  return { mesh: solved.drive.meshes[link.mesh]?.id ?? null, words };
}

/** The run as trees, one for each beginning; each shaft stands in it once. The same drive gives the same run. Linear but for sorting branches. */
export function runOfDrive(solved: Solved, units: UnitChoice): RunNode[] {
  const { order, starts, cameBy } = routeOf(solved);
  const inputs = new Set(
    solved.drive.ports.filter((port) => port.role === "input").map((port) => solved.index.shafts.get(port.shaft)),
  );
  const isDriven = new Uint8Array(solved.drive.shafts.length);
  for (const shaft of order) {
    const from = cameBy[shaft]?.from;
    isDriven[shaft] = from === undefined ? (inputs.has(shaft) ? 1 : 0) : (isDriven[from] ?? 0);
  }
  const branches: RunNode[][] = solved.drive.shafts.map(() => []);
  const runs: RunNode[] = [];
  // From the ends back, so that every branch is whole when its stem is made.
  for (let i = order.length - 1; i >= 0; i--) {
    const index = order[i] ?? -1;
    const shaft = solved.drive.shafts[index];
    if (!shaft) continue;
    const came = cameBy[index];
    const role = solved.drive.ports[solved.index.portOfShaft[index] ?? -1]?.role ?? null;
    const next = (branches[index] ?? []).reverse().sort((a, b) => Number(a.leadsToOutput) - Number(b.leadsToOutput));
    const node: RunNode = {
      shaft: shaft.id,
      index,
      role,
      via: came ? tokenOf(solved, came.link, units) : null,
      next,
      isDriven: isDriven[index] === 1,
      leadsToOutput: role === "output" || next.some((branch) => branch.leadsToOutput),
    };
    if (came && !starts.has(index)) branches[came.from]?.push(node);
    else runs.push(node);
  }
  return runs.reverse();
}
