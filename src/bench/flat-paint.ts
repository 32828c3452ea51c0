/**
 * The flat drawing: pitch circles with their marks, cones to their apex, axes, arrows and contact lines as strokes on a plain 2D canvas,
 * seen as the bench's eye stands. For computers that can't draw bodies fast enough, or at all.
 */

import { type GearOutline, reachAcross } from "../engine/collisions/gear-outline";
import { frameOfMesh } from "../engine/motion/pose-at";
import type { Vec3 } from "../engine/solved";
import type { Part } from "../store/view";
import type { BenchLayout } from "./bench-layout";
import { eyePoint, type Orbit, project } from "./orbit";
import { rimsOf } from "./rim-marks";
import type { BenchColours } from "./theme-colours";
import { inFrame, pointAt, type Turning } from "./turning";

export interface FlatPicture {
  readonly context: CanvasRenderingContext2D;
  readonly layout: BenchLayout;
  readonly turning: Turning;
  readonly orbit: Orbit;
  readonly width: number;
  readonly height: number;
  readonly colours: BenchColours;
  readonly selection: Part | null;
  readonly hover: Part | null;
  readonly direction: 1 | -1;
  /** What something is wrong with, by "gear b1" or "shaft A". */
  readonly troubles: ReadonlyMap<string, string>;
  /** Drawn on top of another picture, pale, and only these shafts and gears. */
  readonly ghosts?: readonly string[];
}

const SEGMENTS = 48;
/** Line widths in pixels: outlines wide, all else narrow (ISO 128-2, two to one). */
const WIDE = 2;
const NARROW = 1;
/** ISO 128-2, 04.1: long dash, gap, dot, gap, in line widths (the dot twice its 0.5, so that a screen shows it). */
const DASH_DOT = [24, 3, 1, 3];
/** More marks than this can't be told apart in a small picture. */
const MOST_MARKS = 90;

export function paintFlat(picture: FlatPicture): void {
  const { context, layout, turning, orbit, width, height, ghosts } = picture;
  const { drive } = layout.solved;
  const isShown = (shaft: number): boolean => !ghosts || ghosts.includes(drive.shafts[shaft]?.id ?? "");
  const isGearShown = ({ shaft, gear }: GearOutline): boolean =>
    isShown(shaft) || (ghosts?.includes(drive.gears[gear]?.id ?? "") ?? false);
  context.save();
  if (!ghosts) context.clearRect(0, 0, width, height);
  context.globalAlpha = ghosts ? 0.5 : 1;
  context.translate(width / 2, height / 2);
  context.lineCap = "round";
  context.lineJoin = "round";
  const eye = eyePoint(orbit);
  const away = ({ shaft, at }: GearOutline): number => {
    const p = pointAt(turning.poses.still, shaft, [0, 0, at]);
    return Math.hypot(p[0] - eye[0], p[1] - eye[1], p[2] - eye[2]);
  };
  // The furthest first, so that nearer gears lie on top.
  const gears = layout.gears.filter(isGearShown).sort((a, b) => away(b) - away(a));
  for (const outline of gears) paintGear(picture, outline);
  for (const rod of layout.rods) if (rod && isShown(rod.shaft)) paintShaft(picture, rod.shaft);
  if (!ghosts) for (const mesh of layout.solved.placement.meshes.keys()) paintContact(picture, mesh);
  context.restore();
}

type Pen = (matrices: Float64Array, shaft: number, point: Vec3) => { x: number; y: number };

const penOf =
  ({ orbit, height }: FlatPicture): Pen =>
  (matrices, shaft, point) => {
    const at = project(orbit, pointAt(matrices, shaft, point), height);
    return { x: at.x, y: -at.y };
  };

function litWidth({ selection, hover, layout }: FlatPicture, outline: GearOutline): number {
  const { drive, index } = layout.solved;
  const touches = (part: Part | null): boolean => {
    if (part?.kind === "gear") return part.id === drive.gears[outline.gear]?.id;
    if (part?.kind === "shaft") return part.id === drive.shafts[outline.shaft]?.id;
    return part !== null && (index.gearsOfMesh[index.meshes.get(part.id) ?? -1]?.includes(outline.gear) ?? false);
  };
  return touches(selection) ? 4 : touches(hover) ? 3 : 0;
}

function paintGear(picture: FlatPicture, outline: GearOutline): void {
  const { context, layout, turning, colours } = picture;
  const pen = penOf(picture);
  const { still, turned } = turning.poses;
  const { shaft } = outline;
  const hue = colours.shaft(shaft);
  const rims = rimsOf(outline);
  const circle = (r: number, z: number): Path2D => {
    const path = new Path2D();
    for (let k = 0; k <= SEGMENTS; k++) {
      const a = (2 * Math.PI * k) / SEGMENTS;
      const { x, y } = pen(still, shaft, [r * Math.cos(a), r * Math.sin(a), z]);
      if (k === 0) path.moveTo(x, y);
      else path.lineTo(x, y);
    }
    path.closePath();
    return path;
  };
  context.strokeStyle = hue;
  context.fillStyle = `${hue}26`;
  context.lineWidth = WIDE;
  for (const rim of rims) {
    const path = circle(rim.r, rim.z);
    context.fill(path);
    context.stroke(path);
  }
  // Lines along the pitch surface: some of them are its outline from wherever one looks.
  const apex = outline.coneDistance === null ? null : outline.pitch[0];
  const [first, last] = apex
    ? [[0, apex[1]] as const, [rims[0]?.r ?? 0, rims[0]?.z ?? 0] as const]
    : [outline.pitch[0], outline.pitch[1]];
  context.lineWidth = NARROW;
  context.globalAlpha *= 0.55;
  context.beginPath();
  for (let k = 0; k < 12; k++) {
    const a = (Math.PI * k) / 6;
    const from = pen(still, shaft, [first[0] * Math.cos(a), first[0] * Math.sin(a), first[1]]);
    const to = pen(still, shaft, [last[0] * Math.cos(a), last[0] * Math.sin(a), last[1]]);
    context.moveTo(from.x, from.y);
    context.lineTo(to.x, to.y);
  }
  context.stroke();
  context.globalAlpha = picture.ghosts ? 0.5 : 1;
  paintMarks(picture, outline, turned);
  if (!picture.ghosts && picture.troubles.has(`gear ${layout.solved.drive.gears[outline.gear]?.id}`)) {
    context.strokeStyle = colours.warning;
    context.lineWidth = WIDE + 1;
    context.setLineDash([10, 8]);
    context.stroke(circle(reachAcross(outline) + layout.radius * 0.01, outline.at));
    context.setLineDash([]);
  }
  const lit = litWidth(picture, outline);
  if (lit > 0) {
    context.strokeStyle = colours.focus;
    context.lineWidth = lit;
    context.stroke(circle(reachAcross(outline) + layout.radius * 0.02, outline.at));
  }
}

function paintMarks(
  { context, layout, colours, ...picture }: FlatPicture,
  outline: GearOutline,
  turned: Float64Array,
): void {
  const count = layout.marks[outline.gear] ?? 24;
  const every = Math.ceil(count / MOST_MARKS);
  const pen = penOf({ context, layout, colours, ...picture });
  const phase = ((layout.solved.drive.gears[outline.gear]?.phase ?? 0) * Math.PI) / 180;
  const step = (2 * Math.PI) / count;
  const reach = outline.pitchRadius * Math.min(0.07, step * 0.25);
  context.strokeStyle = colours.ink;
  for (const isFirst of [false, true]) {
    context.lineWidth = isFirst ? 3 : NARROW;
    context.beginPath();
    for (let k = isFirst ? 0 : every; k < (isFirst ? 1 : count); k += every) {
      const a = k * step + phase;
      for (const rim of rimsOf(outline)) {
        const at = (s: number) => {
          const r = rim.r + rim.along[0] * s;
          return pen(turned, outline.shaft, [r * Math.cos(a), r * Math.sin(a), rim.z + rim.along[1] * s]);
        };
        const size = reach * rim.scale * (isFirst ? 2 : 1);
        const [from, to] = [at(-size), at(size)];
        context.moveTo(from.x, from.y);
        context.lineTo(to.x, to.y);
      }
    }
    context.stroke();
  }
}

function paintShaft(picture: FlatPicture, shaft: number): void {
  const { context, layout, turning, colours, direction } = picture;
  const rod = layout.rods[shaft];
  if (!rod) return;
  const pen = penOf(picture);
  const { still, turned } = turning.poses;
  const hue = colours.shaft(shaft);
  context.strokeStyle = hue;
  const line = (matrices: Float64Array, from: Vec3, to: Vec3): void => {
    const [a, b] = [pen(matrices, shaft, from), pen(matrices, shaft, to)];
    context.beginPath();
    context.moveTo(a.x, a.y);
    context.lineTo(b.x, b.y);
    context.stroke();
  };
  context.lineWidth = WIDE + 1;
  line(still, [0, 0, rod.low], [0, 0, rod.high]);
  for (const arm of layout.arms) if (arm.carrier === shaft) line(turned, arm.from, arm.to);
  context.lineWidth = NARROW;
  context.setLineDash(DASH_DOT);
  line(still, [0, 0, rod.low - layout.unit * 0.55], [0, 0, rod.high + layout.unit * 0.55]);
  context.setLineDash([]);
  const way = (layout.solved.motion.way[shaft] ?? 0) * direction;
  if (way === 0) return;
  const r = rod.arrowRadius;
  context.lineWidth = WIDE + 0.5;
  context.beginPath();
  const spot = (a: number, radius = r) =>
    pen(still, shaft, [radius * Math.cos(a), way * radius * Math.sin(a), rod.arrowAt]);
  for (let k = 0; k <= 24; k++) {
    const { x, y } = spot(-0.25 * Math.PI + (1.37 * Math.PI * k) / 24);
    if (k === 0) context.moveTo(x, y);
    else context.lineTo(x, y);
  }
  const end = 1.12 * Math.PI;
  for (const side of [0.78, 1.22]) {
    const [tip, barb] = [spot(end), spot(end - 0.4, r * side)];
    context.moveTo(barb.x, barb.y);
    context.lineTo(tip.x, tip.y);
  }
  context.stroke();
}

function paintContact(picture: FlatPicture, mesh: number): void {
  const { context, layout, turning, orbit, height, colours, selection, hover } = picture;
  const { solved } = layout;
  const placed = solved.placement.meshes[mesh];
  if (!placed) return;
  const id = solved.drive.meshes[mesh]?.id;
  const isLit = [selection, hover].some((part) => part?.kind === "mesh" && part.id === id);
  const frame = frameOfMesh(solved, mesh);
  const at = (point: Vec3) => project(orbit, inFrame(turning.poses, frame, point), height);
  const [from, to] = [at(placed.contact[0]), at(placed.contact[1])];
  context.strokeStyle = context.fillStyle = isLit ? colours.focus : colours.accent;
  context.lineWidth = isLit ? 6 : 4;
  context.beginPath();
  context.moveTo(from.x, -from.y);
  context.lineTo(to.x, -to.y);
  context.stroke();
  const apexPoint = solved.placement.gears[solved.index.gearsOfMesh[mesh]?.[0] ?? -1]?.apexPoint;
  if (!apexPoint) return;
  const apex = at(apexPoint);
  context.beginPath();
  context.arc(apex.x, -apex.y, 4, 0, 2 * Math.PI);
  context.fill();
}
