/** Centre lines, pitch surfaces, arrows of turn and names: what a view carries besides edges. mm, flat coordinates of the frame. */
import type { GearOutline, RZ } from "../collisions/gear-outline";
import { rodsOf } from "../collisions/rods";
import type { Solved, Vec3 } from "../solved";
import { add, along, cross, dot, length, scale } from "../vector";
import { quantity, shaftName } from "../wording";
import { flatCircle } from "./curves";
import { type Frame, flatDirection, flatten } from "./frame";
import type { ArcItem, DrawnPart, Item, LayersToFill, LineItem, Point, Turn } from "./types";

/** By how much centre lines reach beyond what they belong to, mm of paper. ISO 128-2 asks for "a little". */
const BEYOND = 3;
/** Cosine between axis and line of sight from which the turn is drawn round the axis, and below which across the shaft. */
const ROUND_FROM = 0.5;
const ARROW_HEAD = 3;

const line = (points: readonly Point[], part: DrawnPart | null): LineItem => ({ shape: "line", points, part });

/** Pitch diameters beyond which an apex is too far to be drawn: the pitch line then starts short of the toe. */
const FAR_APEX = 1.5;

/** The half section of the pitch surface as far as it is drawn. */
export function shownPitch({ pitch, coneDistance, pitchRadius, face }: GearOutline): readonly [RZ, RZ] {
  if (coneDistance === null || coneDistance <= FAR_APEX * 2 * pitchRadius) return pitch;
  const [[r0, z0], [r1, z1]] = pitch;
  const part = Math.max(0, (coneDistance - 1.3 * face) / coneDistance);
  return [
    [r0 + part * (r1 - r0), z0 + part * (z1 - z0)],
    [r1, z1],
  ];
}

const gearPart = (id: string): DrawnPart => ({ kind: "gear", id });

/** `shafts`: which of them; `paper`: mm of the drive for a mm of paper. */
export function drawCentreLines(
  frame: Frame,
  solved: Solved,
  shafts: ReadonlySet<number>,
  paper: number,
  layers: LayersToFill,
): void {
  const { gears, rods } = rodsOf(solved);
  for (const shaft of shafts) {
    const placed = solved.placement.shafts[shaft];
    const rod = rods[shaft];
    if (!placed || !rod) continue;
    const part: DrawnPart = { kind: "shaft", id: solved.drive.shafts[shaft]?.id ?? "" };
    const steep = Math.abs(dot(placed.axis, frame.towards));
    const far = BEYOND * paper;
    if (steep < 1 - 1e-9) {
      const from = along(placed.origin, placed.axis, rod.low - far);
      const to = along(placed.origin, placed.axis, rod.high + far);
      layers.centre.push(line([flatten(frame, from), flatten(frame, to)], part));
    }
    if (steep <= ROUND_FROM) continue;
    const own = gears.filter((gear) => gear.shaft === shaft);
    const reach = Math.max(rod.radius, ...own.map(({ tipRadius }) => tipRadius)) + far;
    const [x, y] = flatten(frame, placed.origin);
    if (steep >= 1 - 1e-9)
      layers.centre.push(
        line(
          [
            [x - reach, y],
            [x + reach, y],
          ],
          part,
        ),
        line(
          [
            [x, y - reach],
            [x, y + reach],
          ],
          part,
        ),
      );
  }
}

/** Pitch circle where it is seen as one, and the silhouette of the pitch cylinder or cone. ISO 2203. */
export function drawPitchSurfaces(frame: Frame, solved: Solved, layers: LayersToFill): void {
  for (const outline of rodsOf(solved).gears) {
    const shaft = solved.placement.shafts[outline.shaft];
    if (!shaft) continue;
    const part = gearPart(solved.drive.gears[outline.gear]?.id ?? "");
    const { first, second, ratio, tilt } = flatCircle(frame, shaft.axis);
    const heel = along(shaft.origin, shaft.axis, outline.at);
    if (ratio > 1e-7) {
      const rx = outline.pitchRadius;
      layers.pitch.push({
        shape: "arc",
        centre: flatten(frame, heel),
        rx,
        ry: rx * ratio,
        tilt,
        from: 0,
        to: 2 * Math.PI,
        part,
      });
    }
    // Cones seen across: from the apex to the heel; cylinders: from one face to the other.
    const [[r0, z0], [r1, z1]] = shownPitch(outline);
    if (z0 === z1) continue;
    const sight = Math.sqrt(Math.max(0, 1 - dot(shaft.axis, frame.towards) ** 2));
    const slope = (r1 - r0) / (z1 - z0);
    const cosine = (slope * dot(shaft.axis, frame.towards)) / sight;
    if (!(sight > 1e-7) || Math.abs(cosine) >= 1) continue;
    // `second` points towards the eye: across the axis, a quarter turn on from the long radius.
    const facing = dot(second, frame.towards) < 0 ? scale(second, -1) : second;
    const sine = Math.sqrt(1 - cosine * cosine);
    for (const side of [1, -1]) {
      const out = add(scale(facing, cosine), scale(first, side * sine));
      const at = (r: number, z: number): Point =>
        flatten(frame, add(along(shaft.origin, shaft.axis, z), scale(out, r)));
      layers.pitch.push(line([at(r0, z0), at(r1, z1)], part));
    }
  }
}

export interface SeenTurn {
  readonly turn: Turn;
  /** Unit, flat: the way in which the near side moves; null where the turn is seen round the axis. */
  readonly moves: Point | null;
}

/** How a turn at `velocity` (rad/s, world) looks from here; null where nothing turns. */
export function seenTurn(frame: Frame, velocity: Vec3): SeenTurn | null {
  const size = length(velocity);
  if (size === 0) return null;
  const facing = dot(velocity, frame.towards) / size;
  if (Math.abs(facing) >= ROUND_FROM) return { turn: facing > 0 ? "counterclockwise" : "clockwise", moves: null };
  const [x, y] = flatDirection(frame, cross(velocity, frame.towards));
  const long = Math.hypot(x, y);
  return { turn: "near side moves", moves: [x / long, y / long] };
}

const head = (tip: Point, [x, y]: Point, size: number, part: DrawnPart, turn: Turn): LineItem => ({
  shape: "line",
  points: [
    tip,
    [tip[0] - size * (x + 0.3 * y), tip[1] - size * (y - 0.3 * x)],
    [tip[0] - size * (x - 0.3 * y), tip[1] - size * (y + 0.3 * x)],
  ],
  isClosed: true,
  isFilled: true,
  part,
  turn,
});

function roundArrow(centre: Point, radius: number, turn: Turn, size: number, part: DrawnPart): Item[] {
  const way = turn === "counterclockwise" ? 1 : -1;
  const [from, to] = [-0.25 * Math.PI, 1.25 * Math.PI];
  const end = way > 0 ? to : from;
  const arc: ArcItem = { shape: "arc", centre, rx: radius, ry: radius, tilt: 0, from, to, part, turn };
  const tip: Point = [centre[0] + radius * Math.cos(end), centre[1] + radius * Math.sin(end)];
  return [arc, head(tip, [-way * Math.sin(end), way * Math.cos(end)], size, part, turn)];
}

/** The arrow of each shaft, as seen here, and its name, with its speed where `hasSpeeds`. */
export function drawTurns(
  frame: Frame,
  solved: Solved,
  shafts: ReadonlySet<number>,
  paper: number,
  layers: LayersToFill,
  hasSpeeds: boolean,
): void {
  const { rods } = rodsOf(solved);
  for (const shaft of shafts) {
    const placed = solved.placement.shafts[shaft];
    const rod = rods[shaft];
    if (!placed || !rod) continue;
    const part: DrawnPart = { kind: "shaft", id: solved.drive.shafts[shaft]?.id ?? "" };
    const centre = flatten(frame, along(placed.origin, placed.axis, rod.arrowAt));
    const radius = Math.max(rod.arrowRadius, 3 * paper);
    const velocity = solved.motion.angularVelocity[shaft] ?? null;
    const seen = velocity && seenTurn(frame, velocity);
    // On the arrow: its upper end, or its arc; where nothing turns on the shaft.
    let beside = centre;
    if (seen?.moves) {
      const [x, y] = seen.moves;
      const tip: Point = [centre[0] + radius * x, centre[1] + radius * y];
      const up = y < 0 || (y === 0 && x < 0) ? -1 : 1;
      beside = [centre[0] + up * radius * x, centre[1] + up * radius * y];
      const { turn } = seen;
      layers.arrows.push({ ...line([[centre[0] - radius * x, centre[1] - radius * y], tip], part), turn });
      layers.arrows.push(head(tip, seen.moves, Math.min(ARROW_HEAD * paper, radius), part, turn));
    } else if (seen) {
      beside = [centre[0] + radius * Math.SQRT1_2, centre[1] + radius * Math.SQRT1_2];
      layers.arrows.push(...roundArrow(centre, radius, seen.turn, Math.min(ARROW_HEAD * paper, radius), part));
    }
    const speed = solved.motion.speed[shaft] ?? null;
    const name = shaftName(solved.drive, shaft);
    const carrier = solved.index.frameOfShaft[shaft] ?? -1;
    // The speed of a carried shaft is that against its carrier, and the arrow what is seen from here: say whose the number is.
    const eye = carrier < 0 ? "" : ` on ${shaftName(solved.drive, carrier)}`;
    const text = speed === null || !hasSpeeds ? name : `${name}, ${quantity(Math.abs(speed), "rev/min")}${eye}`;
    layers.labels.push({
      shape: "text",
      at: [centre[0] + 1.15 * radius, centre[1] + 1.15 * radius],
      text,
      anchor: "start",
      part,
      beside,
    });
  }
}
