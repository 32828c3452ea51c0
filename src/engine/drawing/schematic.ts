/**
 * The drive as a schematic: shafts as lines, gears as bars or cones across them, bearings as ticks on both sides of a shaft. After
 * ISO 3952-1 and -2 (from memory), kept simple. It looks at the drive from the side from which most shafts lie across.
 */
import { type GearOutline, isShell } from "../collisions/gear-outline";
import { type RodPlace, rodsOf } from "../collisions/rods";
import type { PlacedShaft, Solved } from "../solved";
import { add, along, dot, scale } from "../vector";
import { flatCircle } from "./curves";
import { type Angle, type Frame, flatten, viewFrame } from "./frame";
import type { DrawnPart, LayersToFill, Point } from "./types";

/** Sine between axis and line of sight below which a shaft counts as pointing at the eye. */
const ACROSS = 0.2;

const acrossness = (frame: Frame, shaft: PlacedShaft): number =>
  Math.sqrt(Math.max(0, 1 - dot(shaft.axis, frame.towards) ** 2));

/** Of front, top and side the one in which the shafts show the most of their length; the first of equals. */
export function schematicFrame({ placement }: Solved, angle: Angle): Frame {
  const frames = (["front", "top", "side"] as const).map((view) => viewFrame(view, angle));
  const score = (frame: Frame): number =>
    placement.shafts.reduce((sum, shaft) => sum + (shaft ? acrossness(frame, shaft) : 0), 0);
  return frames.reduce((best, next) => (score(next) > score(best) + 1e-6 ? next : best));
}

export function drawSchematic(frame: Frame, solved: Solved, paper: number, layers: LayersToFill): void {
  const { drive, placement } = solved;
  const { gears, rods } = rodsOf(solved);
  placement.shafts.forEach((shaft, i) => {
    const rod = rods[i];
    if (!shaft || !rod) return;
    const part: DrawnPart = { kind: "shaft", id: drive.shafts[i]?.id ?? "" };
    const isCarried = (solved.index.frameOfShaft[i] ?? -1) >= 0;
    drawShaft(frame, shaft, rod, part, isCarried, paper, layers);
  });
  for (const outline of gears) {
    const shaft = placement.shafts[outline.shaft];
    const id = drive.gears[outline.gear]?.id ?? "";
    if (shaft) drawGear(frame, shaft, outline, { kind: "gear", id }, paper, layers);
  }
}

function drawShaft(
  frame: Frame,
  shaft: PlacedShaft,
  rod: RodPlace,
  part: DrawnPart,
  isCarried: boolean,
  paper: number,
  layers: LayersToFill,
): void {
  const push = (...points: Point[]): void => void layers.visible.push({ shape: "line", points, part });
  const at = (z: number): Point => flatten(frame, along(shaft.origin, shaft.axis, z));
  if (acrossness(frame, shaft) < ACROSS) {
    const whole = { from: 0, to: 2 * Math.PI, tilt: 0 };
    layers.visible.push({ shape: "arc", centre: at(rod.high), rx: paper, ry: paper, ...whole, part });
    return;
  }
  const [low, high] = [at(rod.low), at(rod.high)];
  push(low, high);
  if (isCarried) return;
  // Bearings near both ends: a tick on each side, along the shaft.
  const long = Math.hypot(high[0] - low[0], high[1] - low[1]);
  const e: Point = [(high[0] - low[0]) / long, (high[1] - low[1]) / long];
  const tick = Math.min(2 * paper, long / 8);
  for (const s of [1.5 * tick, long - 1.5 * tick]) {
    for (const side of [1, -1]) {
      const foot = (d: number): Point => [
        low[0] + (s + d) * e[0] - side * paper * e[1],
        low[1] + (s + d) * e[1] + side * paper * e[0],
      ];
      push(foot(-tick), foot(tick));
    }
  }
}

function drawGear(
  frame: Frame,
  shaft: PlacedShaft,
  outline: GearOutline,
  part: DrawnPart,
  paper: number,
  layers: LayersToFill,
): void {
  const { first, ratio, tilt } = flatCircle(frame, shaft.axis);
  const heel = along(shaft.origin, shaft.axis, outline.at);
  if (acrossness(frame, shaft) < ACROSS) {
    const rx = outline.pitchRadius;
    const whole = { from: 0, to: 2 * Math.PI };
    layers.visible.push({ shape: "arc", centre: flatten(frame, heel), rx, ry: rx * ratio, tilt, ...whole, part });
    return;
  }
  const at = (r: number, z: number): Point => flatten(frame, add(along(shaft.origin, shaft.axis, z), scale(first, r)));
  const push = (...points: Point[]): void => void layers.visible.push({ shape: "line", points, part });
  const { pitchRadius: r, at: z, face, coneDistance, outward, pitchAngle } = outline;
  if (coneDistance === null) {
    const half = face / 2;
    for (const side of [1, -1]) push(at(side * r, z - half), at(side * r, z + half));
    if (!isShell(outline)) push(at(-r, z), at(r, z));
    else {
      // A ring is open inside: a wall outside its teeth on each side, joined behind them.
      const back = outline.body.reduce((most, [radius]) => Math.max(most, radius), 0) + paper;
      for (const side of [1, -1]) push(at(side * r, z), at(side * back, z));
    }
    return;
  }
  const toe = Math.max(0.02, (coneDistance - face) / coneDistance);
  const toeAt = z - outward * (1 - toe) * coneDistance * Math.cos(pitchAngle);
  push(at(-r, z), at(r, z));
  for (const side of [1, -1]) push(at(side * r, z), at(side * r * toe, toeAt));
}
