/** What is written beside what on the bench: each shaft's name at its end, each gear's teeth (or diameter) beside its rim. */

import { type GearOutline, reachAcross } from "../engine/collisions/gear-outline";
import type { RodPlace } from "../engine/collisions/rods";
import { type Gear, hasTeeth } from "../engine/drive/types";
import type { Vec3 } from "../engine/solved";
import type { UnitChoice } from "../engine/units/choice";
import { quantityIn, shaftName } from "../engine/wording";
import { type BenchLayout, freeDirection, portRoom } from "./bench-layout";

export interface Label {
  readonly key: string;
  readonly kind: "shaft" | "gear";
  readonly id: string;
  readonly text: string;
  /** Index of the shaft, and the place in its own coordinates, its own turning left out. */
  readonly shaft: number;
  readonly local: Vec3;
  /** Stays where others lie on it: what drives, holds or loads the drive. */
  readonly isChief: boolean;
}

/** More would cover the drive and one another; each is measured and placed at every picture. */
const MOST_LABELS = 120;

/** The first ones get their places first: what drives, holds or loads the drive, then the other shafts, then the gears. */
export function labelList(layout: BenchLayout, units: UnitChoice): Label[] {
  const { index } = layout.solved;
  const labels: Label[] = [];
  const isChief = ({ shaft }: RodPlace): boolean => (index.portOfShaft[shaft] ?? -1) >= 0;
  // No more are made than are shown: a drive may have thousands.
  for (const chief of [true, false]) {
    for (const rod of layout.rods) {
      if (labels.length === MOST_LABELS) return labels;
      if (rod && isChief(rod) === chief) labels.push(shaftLabel(layout, rod, chief));
    }
  }
  for (const outline of layout.gears) {
    if (labels.length === MOST_LABELS) break;
    const gear = layout.solved.drive.gears[outline.gear];
    if (gear) labels.push(gearLabel(layout, outline, gear, units));
  }
  return labels;
}

function shaftLabel(layout: BenchLayout, rod: RodPlace, isChief: boolean): Label {
  const { drive } = layout.solved;
  const id = drive.shafts[rod.shaft]?.id ?? "";
  const [at = rod.high] = portRoom(layout.solved, rod, layout.unit)[0] ?? [];
  return {
    key: `shaft ${id}`,
    kind: "shaft",
    id,
    text: shaftName(drive, rod.shaft),
    shaft: rod.shaft,
    isChief,
    local: [0, 0, at + rod.side * 0.25 * layout.unit],
  };
}

function gearLabel(layout: BenchLayout, outline: GearOutline, gear: Gear, units: UnitChoice): Label {
  const [x, y] = freeDirection(layout, outline);
  const r = reachAcross(outline) + 0.16 * layout.unit;
  return {
    key: `gear ${gear.id}`,
    kind: "gear",
    id: gear.id,
    text: hasTeeth(gear) ? String(gear.teeth) : `⌀${quantityIn(gear.diameter, "mm", units)}`,
    shaft: outline.shaft,
    isChief: false,
    local: [x * r, y * r, outline.at],
  };
}

export interface Box {
  x: number;
  y: number;
  readonly halfWidth: number;
  readonly halfHeight: number;
  isHidden: boolean;
}

/** Tried in this order, in parts of a label's height, so that no label lies on another. */
const SHIFTS = [0, -1, 1, -2, 2];
/** Beyond so many labels only their own places are tried: each try looks at all others. */
const MANY = 80;

/** Moves labels apart, the first ones first; one that finds no room is hidden if it may be, and else stays where it was. */
export function moveApart(boxes: readonly Box[], mayHide: (index: number) => boolean): void {
  const shifts = boxes.length > MANY ? [0] : SHIFTS;
  const meets = (box: Box, y: number, other: Box): boolean =>
    !other.isHidden &&
    Math.abs(box.x - other.x) < box.halfWidth + other.halfWidth &&
    Math.abs(y - other.y) < box.halfHeight + other.halfHeight;
  boxes.forEach((box, i) => {
    if (box.isHidden) return;
    const before = boxes.slice(0, i);
    const shift = shifts.find((s) => !before.some((other) => meets(box, box.y + s * 2 * box.halfHeight, other)));
    if (shift !== undefined) box.y += shift * 2 * box.halfHeight;
    else if (mayHide(i)) box.isHidden = true;
  });
}
