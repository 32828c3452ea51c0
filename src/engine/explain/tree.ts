/**
 * The structure of a drive as a tree that one can walk, each item told in words: shafts in the order of the train, under each its gears
 * by their places, under each gear its meshes; and under a carrier the shafts that it carries.
 */
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { isZero, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import { FILE_UNITS } from "../units/choice";
import { gearSize, nameText, quantity, shaftName, turnsWords } from "../wording";
import { sameWay, thumbWords, turning } from "./directions";
import { driveWords, rollWords } from "./pair-words";
import { gearPlace, shaftPlace } from "./place-words";
import { routeOf } from "./route";

export interface TreeItem {
  /** Its own in the tree: a mesh stands under both its gears. */
  readonly key: string;
  readonly kind: "shaft" | "gear" | "mesh";
  readonly id: string;
  /** Index in the drive's list of its kind. */
  readonly index: number;
  /** On a mesh: the gear under which it stands, by index; -1 elsewhere. */
  readonly under: number;
  readonly children: readonly TreeItem[];
}

/** What a screen shows and a reader says of an item. */
export interface ItemWords {
  /** "Motor", "b1, 50 teeth", "meshes with c1 on Mixer". */
  readonly name: string;
  /** "shaft, input", "bevel gear", "mesh". */
  readonly sort: string;
  /** Place, turning, speed, ratio: one after another. */
  readonly facts: readonly string[];
}

/** The tree: its top items. Each shaft and gear stands in it once, each mesh under both its gears. Linear but for sorting gears by place. */
export function treeOf(solved: Solved): TreeItem[] {
  const { drive, index } = solved;
  const branches = new Map<number, TreeItem[]>();
  const top: TreeItem[] = [];
  const { order } = routeOf(solved);
  // Carriers carry carriers to any depth: each shaft's list is made first and filled after.
  for (const shaft of order) branches.set(shaft, gearItems(solved, shaft));
  for (const shaft of order) {
    const data = drive.shafts[shaft];
    const children = branches.get(shaft);
    if (!data || !children) continue;
    const item: TreeItem = { key: `shaft ${data.id}`, kind: "shaft", id: data.id, index: shaft, under: -1, children };
    (branches.get(index.frameOfShaft[shaft] ?? -1) ?? top).push(item);
  }
  return top;
}

function gearItems(solved: Solved, shaft: number): TreeItem[] {
  const { drive, index } = solved;
  const meshesOf = new Map<number, TreeItem[]>();
  for (const mesh of new Set(index.meshesOfShaft[shaft] ?? [])) {
    const id = drive.meshes[mesh]?.id ?? "";
    for (const gear of index.gearsOfMesh[mesh] ?? []) {
      if (index.shaftOfGear[gear] !== shaft) continue;
      const key = `mesh ${id} under ${drive.gears[gear]?.id ?? ""}`;
      const item: TreeItem = { key, kind: "mesh", id, index: mesh, under: gear, children: [] };
      meshesOf.set(gear, [...(meshesOf.get(gear) ?? []), item]);
    }
  }
  return [...(index.gearsOfShaft[shaft] ?? [])]
    .sort((a, b) => (drive.gears[a]?.at ?? 0) - (drive.gears[b]?.at ?? 0) || a - b)
    .map((gear) => {
      const id = drive.gears[gear]?.id ?? "";
      return { key: `gear ${id}`, kind: "gear", id, index: gear, under: -1, children: meshesOf.get(gear) ?? [] };
    });
}

/** What is said of an item of this drive's tree. */
export function itemWords(solved: Solved, item: TreeItem): ItemWords {
  if (item.kind === "shaft") return shaftWords(solved, item.index);
  return item.kind === "gear" ? gearWords(solved, item.index) : meshWords(solved, item.index, item.under);
}

function shaftWords(solved: Solved, shaft: number): ItemWords {
  const { drive, index, motion } = solved;
  const port = drive.ports[index.portOfShaft[shaft] ?? -1];
  const facts = [...shaftPlace(solved, shaft), ...turnFacts(solved, shaft)];
  const ratio = motion.ratios[shaft] ?? null;
  const input = drive.ports.find(({ role, shaft: id }) => role === "input" && turns(solved, id))?.shaft;
  const inputIndex = index.shafts.get(input ?? "") ?? -1;
  // To an eye on a carrier speeds are others: no ratio is told that could be taken for one seen from the ground.
  if (ratio && inputIndex >= 0 && inputIndex !== shaft && (index.frameOfShaft[shaft] ?? -1) < 0) {
    facts.push(turnsWords(shaftName(drive, inputIndex), shaftName(drive, shaft), ratio));
  }
  return { name: shaftName(drive, shaft), sort: port ? `shaft, ${port.role}` : "shaft", facts };
}

const turns = (solved: Solved, id: string): boolean => {
  const speed = solved.motion.speeds[solved.index.shafts.get(id) ?? -1] ?? null;
  return speed !== null && !isZero(speed);
};

/** "clockwise seen from the motor end", "right thumb towards the left end: …", "580 rev/min". */
function turnFacts(solved: Solved, shaft: number): string[] {
  const speed = solved.motion.speeds[shaft] ?? null;
  const way = turning(solved, shaft);
  if (speed === null) return [`its turning is ${way}`];
  const thumb = thumbWords(solved, shaft);
  return isZero(speed) || !thumb ? [way] : [`turns ${way}`, thumb, quantity(Math.abs(toNumber(speed)), "rev/min")];
}

function gearWords(solved: Solved, gear: number): ItemWords {
  const data = solved.drive.gears[gear];
  if (!data) return { name: "", sort: "", facts: [] };
  const mates = (solved.index.meshesOfShaft[solved.index.shaftOfGear[gear] ?? -1] ?? []).filter((mesh) =>
    solved.index.gearsOfMesh[mesh]?.includes(gear),
  );
  const facts = [gearPlace(solved, gear)];
  if (mates.length === 0) facts.push("meshes with nothing");
  return { name: `${nameText(data.id)}, ${gearSize(data)}`, sort: GEAR_FORMS[data.kind].name, facts };
}

function meshWords(solved: Solved, mesh: number, under: number): ItemWords {
  const { drive, index } = solved;
  const data = drive.meshes[mesh];
  const pair = index.gearsOfMesh[mesh];
  const shafts = index.shaftsOfMesh[mesh];
  if (!data || !pair || !shafts) return { name: "", sort: "mesh", facts: [] };
  const mate = pair[0] === under ? pair[1] : pair[0];
  const [own, other] = [drive.gears[under], drive.gears[mate]];
  const mateShaft = index.shaftOfGear[mate] ?? -1;
  if (!own || !other) return { name: "", sort: "mesh", facts: [] };
  const facts = [drivesWords(solved, mesh, pair)];
  const placed = solved.placement.meshes[mesh];
  if (data.shaftAngle !== undefined) facts.push(`shaft angle ${quantity(data.shaftAngle, "°")}`);
  const way = sameWay(solved, shafts[0], shafts[1]);
  if (way) facts.push(`both shafts turn ${way === "the same way" ? way : "opposite ways"}`);
  if (!placed) facts.push("not in place yet");
  else if (!placed.holds) facts.push("doesn't fit; the findings say why");
  const name = `with ${nameText(other.id)}, ${gearSize(other)}, on ${shaftName(drive, mateShaft)}`;
  return { name, sort: `mesh ${nameText(data.id)}`, facts };
}

/** "20 drives 50", "18 rolls on 60": as the power runs, where that is known, else as the train does; a held gear drives nothing. */
function drivesWords(solved: Solved, mesh: number, pair: readonly [number, number]): string {
  const { drive, index } = solved;
  const [first, second] = [drive.gears[pair[0]], drive.gears[pair[1]]];
  const [a, b] = index.shaftsOfMesh[mesh] ?? [-1, -1];
  if (!first || !second) return "";
  const isHeld = (shaft: number): boolean => drive.ports[index.portOfShaft[shaft] ?? -1]?.role === "held";
  if (isHeld(a)) return rollWords(second, first, FILE_UNITS);
  if (isHeld(b)) return rollWords(first, second, FILE_UNITS);
  const came = routeOf(solved).cameBy[a];
  const isBackwards = came?.link.kind === "mesh" && came.link.mesh === mesh;
  const driver = solved.load.meshes[mesh]?.driver ?? (isBackwards ? 1 : 0);
  return driver === 0 ? driveWords(first, second, FILE_UNITS) : driveWords(second, first, FILE_UNITS);
}
