/** Views of a solved drive laid out on a sheet: scale, titles, projection symbol. Sheet coordinates: mm of paper, y down. */

import { rodsOf } from "../collisions/rods";
import type { Solved } from "../solved";
import { type Angle, type Frame, flatten, viewFrame } from "./frame";
import { textReach, withRoom } from "./label-room";
import { drawCentreLines, drawPitchSurfaces, drawTurns, shownPitch } from "./marks";
import { projectionSymbol, scaleText, standardScale } from "./on-paper";
import { drawOutlines } from "./outlines";
import { type RoundSolid, roundSolids } from "./round-solid";
import { drawSchematic, schematicFrame } from "./schematic";
import { drawSection, sectionFrame, shaftsInPlane } from "./section";
import { drawToothOutlines } from "./tooth-outlines";
import {
  type Drawing,
  type DrawnView,
  emptyLayers,
  type Item,
  type LayersToFill,
  type Point,
  type ViewName,
} from "./types";

export const SHOWN_VIEWS = ["front", "top", "side", "section", "schematic", "three"] as const;
/** `three`: front, top and side view together. */
export type ShownView = (typeof SHOWN_VIEWS)[number];

export interface DrawingWishes {
  readonly view: ShownView;
  readonly angle: Angle;
  readonly gears: "simplified" | "teeth";
  /** Of the section; the first with a place where left out. */
  readonly mesh?: string;
  /**
   * mm of paper for the longest side of a view: a drawing for the screen, which fills that room whatever the scale, and leaves title,
   * scale, projection symbol and speeds to the page round it. Left out: a sheet to keep, at a standard scale.
   */
  readonly room?: number;
}

/** Told after each view that is drawn. */
export type Told = (done: number, of: number) => void;

/** A drawing that can't be made: one sentence what is wrong and what to do. */
export interface NoDrawing {
  readonly trouble: string;
}

/** mm of paper: margin, between views, and for the longest side of a view. */
const MARGIN = 12;
const GAP = 15;
const LONGEST = 180;
const LONGEST_OF_THREE = 110;
/** The same for the screen. */
const SCREEN_MARGIN = 6;
const SCREEN_GAP = 9;
/** mm of a kept sheet: for its title, and for what stands below the views. */
const TITLE = 10;
const FOOT = 28;
/** Above, lines are too many for any eye, and the work grows with the square. */
const MOST_PARTS = 3000;
const MOST_TEETH = 40_000;

interface Box {
  readonly low: Point;
  readonly high: Point;
}

/** What the solids take up at the most, flat. */
function boxOf(frame: Frame, solids: readonly RoundSolid[], solved: Solved): Box {
  const pitches = new Map(rodsOf(solved).gears.map((outline) => [outline.gear, shownPitch(outline)]));
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  const out = (axis: number): number => Math.sqrt(Math.max(0, 1 - axis * axis));
  for (const { origin, axis, profile, gear } of solids) {
    const [ox, oy] = flatten(frame, origin);
    const [ax, ay] = flatten({ ...frame, origin: [0, 0, 0] }, axis);
    for (const [r, z] of [...profile, ...(pitches.get(gear) ?? [])]) {
      x0 = Math.min(x0, ox + z * ax - r * out(ax));
      x1 = Math.max(x1, ox + z * ax + r * out(ax));
      y0 = Math.min(y0, oy + z * ay - r * out(ay));
      y1 = Math.max(y1, oy + z * ay + r * out(ay));
    }
  }
  return { low: [x0, y0], high: [x1, y1] };
}

const widthOf = ({ low, high }: Box): number => high[0] - low[0];
const heightOf = ({ low, high }: Box): number => high[1] - low[1];

/** From mm of the drive, y up, to mm of paper, y down, with the box's low left corner at (left, bottom). */
function placed(item: Item, box: Box, scale: number, left: number, bottom: number): Item {
  const move = ([x, y]: Point): Point => [left + scale * (x - box.low[0]), bottom - scale * (y - box.low[1])];
  if (item.shape === "line") return { ...item, points: item.points.map(move) };
  if (item.shape === "text")
    return { ...item, at: move(item.at), ...(item.beside ? { beside: move(item.beside) } : {}) };
  const { centre, rx, ry, tilt, from, to } = item;
  return { ...item, centre: move(centre), rx: scale * rx, ry: scale * ry, tilt: -tilt, from: -to, to: -from };
}

const place = (layers: LayersToFill, box: Box, scale: number, left: number, bottom: number): LayersToFill => {
  const moved = emptyLayers();
  for (const name of Object.keys(layers) as (keyof LayersToFill)[]) {
    moved[name] = layers[name].map((item) => placed(item, box, scale, left, bottom));
  }
  return moved;
};

const text = (at: Point, words: string): Item => ({ shape: "text", at, text: words, anchor: "start", part: null });

interface Made {
  readonly name: ViewName;
  readonly label: string;
  readonly frame: Frame;
  readonly box: Box;
  readonly draw: (paper: number, layers: LayersToFill) => void;
}

const SEEN_FROM = { front: "from the front", top: "from above" } as const;

function orthographic(
  solved: Solved,
  view: "front" | "top" | "side",
  wishes: DrawingWishes,
  solids: RoundSolid[],
): Made {
  const frame = viewFrame(view, wishes.angle);
  const shafts = new Set(solved.placement.shafts.keys());
  const from = view === "side" ? (wishes.angle === "first" ? "from the left" : "from the right") : SEEN_FROM[view];
  return {
    name: view,
    label: `${view === "front" ? "Front" : view === "top" ? "Top" : "Side"} view, ${from}`,
    frame,
    box: boxOf(frame, solids, solved),
    draw: (paper, layers) => {
      if (wishes.gears === "teeth") drawToothOutlines(frame, solved, solids, paper, layers);
      else drawOutlines(frame, solved, solids, layers);
      drawPitchSurfaces(frame, solved, layers);
      drawCentreLines(frame, solved, shafts, paper, layers);
      drawTurns(frame, solved, shafts, paper, layers, wishes.room === undefined);
    },
  };
}

function section(solved: Solved, { mesh: wished, room }: DrawingWishes, solids: RoundSolid[]): Made | NoDrawing {
  const { drive, placement } = solved;
  const mesh =
    wished === undefined ? placement.meshes.findIndex((m) => m !== null) : (solved.index.meshes.get(wished) ?? -1);
  if (mesh < 0 && wished !== undefined)
    return { trouble: `The drive has no mesh ${JSON.stringify(wished)}: name one that it has.` };
  if (mesh < 0)
    return { trouble: "A section goes through both axes of a mesh, but no mesh has a place: add one first." };
  const frame = sectionFrame(solved, mesh);
  if (typeof frame === "string") return { trouble: frame };
  const shafts = shaftsInPlane(solved, frame);
  const left = placement.shafts.filter((shaft, i) => shaft && !shafts.has(i)).length;
  const note =
    left === 0 ? "" : left === 1 ? "; 1 shaft out of the plane left out" : `; ${left} shafts out of the plane left out`;
  return {
    name: "section",
    label: `Section through both axes of ${drive.meshes[mesh]?.id ?? ""}${note}`,
    frame,
    box: boxOf(
      frame,
      solids.filter(({ shaft }) => shafts.has(shaft)),
      solved,
    ),
    draw: (paper, layers) => {
      drawSection(frame, solved, shafts, paper, layers);
      drawCentreLines(frame, solved, shafts, paper, layers);
      drawTurns(frame, solved, shafts, paper, layers, room === undefined);
    },
  };
}

function schematic(solved: Solved, { angle, room }: DrawingWishes, solids: RoundSolid[]): Made {
  const frame = schematicFrame(solved, angle);
  return {
    name: "schematic",
    label: "Schematic",
    frame,
    box: boxOf(frame, solids, solved),
    draw: (paper, layers) => {
      drawSchematic(frame, solved, paper, layers);
      drawTurns(frame, solved, new Set(solved.placement.shafts.keys()), paper, layers, room === undefined);
    },
  };
}

function madeViews(solved: Solved, wishes: DrawingWishes, solids: RoundSolid[]): Made[] | NoDrawing {
  const { view } = wishes;
  if (view === "three")
    return (["front", "top", "side"] as const).map((one) => orthographic(solved, one, wishes, solids));
  if (view === "schematic") return [schematic(solved, wishes, solids)];
  if (view !== "section") return [orthographic(solved, view, wishes, solids)];
  const made = section(solved, wishes, solids);
  return "trouble" in made ? made : [made];
}

/** The drawing, or why there is none. The same solved drive and wishes give the same drawing to the last digit. */
export function drawingOf(solved: Solved, wishes: DrawingWishes, told: Told = () => {}): Drawing | NoDrawing {
  const { drive } = solved;
  const solids = roundSolids(solved);
  if (solids.length === 0) return { trouble: "The drive has nothing to draw: add a shaft and a gear first." };
  if (solids.length > MOST_PARTS)
    return {
      trouble: `The drive has ${solids.length} parts; a drawing shows ${MOST_PARTS} at the most: draw a part of the drive.`,
    };
  const teeth = drive.gears.reduce((sum, gear) => sum + ("teeth" in gear ? gear.teeth : 0), 0);
  if (wishes.gears === "teeth" && teeth > MOST_TEETH)
    return {
      trouble: `The drive has ${teeth} teeth; a drawing shows ${MOST_TEETH} at the most: draw the gears simplified.`,
    };
  const made = madeViews(solved, wishes, solids);
  if ("trouble" in made) return made;
  const longest = Math.max(...made.map(({ box }) => Math.max(widthOf(box), heightOf(box))));
  if (!(longest > 0 && Number.isFinite(longest)))
    return { trouble: "The drive's sizes are out of all range: give its parts sizes that a drawing can hold." };
  const { room } = wishes;
  const scale =
    room === undefined ? standardScale(longest, made.length === 3 ? LONGEST_OF_THREE : LONGEST) : room / longest;
  return layOut(drive.title, made, scale, wishes, told);
}

function layOut(title: string, made: readonly Made[], scale: number, wishes: DrawingWishes, told: Told): Drawing {
  const { angle, view } = wishes;
  const isForScreen = wishes.room !== undefined;
  const [margin, gap, head, feet, least] = isForScreen
    ? [SCREEN_MARGIN, SCREEN_GAP, 0, SCREEN_MARGIN + 2, 0]
    : [MARGIN, GAP, TITLE, FOOT, 150];
  const [front, top, side] = made as readonly [Made, Made | undefined, Made | undefined];
  const size = (one: Made | undefined): readonly [number, number] =>
    one ? [scale * widthOf(one.box), scale * heightOf(one.box)] : [0, 0];
  const [[w, h], [, topHeight], [sideWidth, sideHeight]] = [size(front), size(top), size(side)];
  const row = Math.max(h, sideHeight);
  // First angle: the view from above stands below; third angle: above. The side view stands on the right in both.
  const isTopAbove = top !== undefined && angle === "third";
  const frontTop = margin + head + (isTopAbove ? topHeight + gap : 0);
  const topTop = isTopAbove ? margin + head : frontTop + row + gap;
  const lefts = [margin, margin, margin + w + gap];
  const bottoms = [frontTop + h, topTop + topHeight, frontTop + sideHeight];
  const height = Math.max(bottoms[0] ?? 0, top ? (bottoms[1] ?? 0) : 0, side ? (bottoms[2] ?? 0) : 0) + feet;
  const width = Math.max(margin * 2 + w + (side ? gap + sideWidth : 0) + (isForScreen ? 0 : 20), least);
  const views: DrawnView[] = made.map((one, i) => {
    const layers = emptyLayers();
    one.draw(1 / scale, layers);
    const [left, bottom] = [lefts[i] as number, bottoms[i] as number];
    told(i + 1, made.length);
    const { towards } = one.frame;
    return { name: one.name, label: one.label, towards, layers: place(layers, one.box, scale, left, bottom) };
  });
  if (isForScreen) {
    const shown = withRoom(views, { width });
    return { title, width: Math.max(width, textReach(shown) + margin), height, scale, views: shown };
  }
  const notes = emptyLayers();
  const foot = height - 6;
  const label = view === "three" ? "Front, top and side view" : front.label;
  notes.labels.push(text([MARGIN, MARGIN - 3], title === "" ? label : `${title}: ${label}`));
  notes.labels.push(text([MARGIN, foot], `Scale ${scaleText(scale)}, lengths in mm`));
  if (view !== "section" && view !== "schematic") {
    notes.labels.push(text([MARGIN + 88, foot], angle === "first" ? "First angle" : "Third angle"));
    notes.visible.push(...projectionSymbol(angle, [MARGIN + 62, foot - 1.5]));
  }
  const placedViews = withRoom([{ name: "notes", label: "Notes", layers: notes }, ...views], { width, height });
  return { title, width: Math.max(width, textReach(placedViews) + MARGIN), height, scale, views: placedViews };
}
