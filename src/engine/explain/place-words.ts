/** Where things stand, in words: beside, above or behind one another, along a shaft. World: z up, x to the right, y away from the viewer. */
import { linePair } from "../measure/lines";
import type { PlacedShaft, Solved, Vec3 } from "../solved";
import { DEGREE, square, sub, unit } from "../vector";
import { quantity, shaftName } from "../wording";
import { endNames, sideName } from "./ends";

/** A direction whose second part is at least this of its first names both: tan 25°, as for the ends of a shaft. */
const SECOND_PART = Math.tan(25 * DEGREE);
const SIDES = [
  ["to the right of", "to the left of"],
  ["behind", "in front of"],
  ["above", "below"],
] as const;

/** "above", "to the right of", "above and behind": the side of something on which a thing in this direction (unit) stands. */
export function sideWords(direction: Vec3): string {
  const order = [0, 1, 2].sort((a, b) => Math.abs(direction[b] ?? 0) - Math.abs(direction[a] ?? 0) || b - a);
  const [first = 0, second = 0] = order;
  const word = (axis: number): string => SIDES[axis]?.[(direction[axis] ?? 0) > 0 ? 0 : 1] ?? "";
  if (Math.abs(direction[second] ?? 0) < SECOND_PART * Math.abs(direction[first] ?? 0)) return word(first);
  return `${word(first)} and ${word(second)}`;
}

/** Cosine of 1 degree: an axis nearer than that to a direction of the world lies along it. */
const ALONG = Math.cos(DEGREE);

/** "lies from left to right", "stands upright", "lies from near to far", "leans, its upper right end up". */
export function lieWords({ axis }: PlacedShaft): string {
  const [x, y, z] = axis.map(Math.abs) as [number, number, number];
  if (x > ALONG) return "lies from left to right";
  if (y > ALONG) return "lies from near to far";
  if (z > ALONG) return "stands upright";
  const high: Vec3 = axis[2] < 0 ? [-axis[0], -axis[1], -axis[2]] : axis;
  return z < Math.sin(DEGREE) ? `lies level, towards the ${sideName(axis)}` : `leans towards its ${sideName(high)}`;
}

/** Where one shaft stands as seen from another: "70 mm above Motor, parallel to it", "at 90° to Motor, the axes meet". */
export function standsBeside(solved: Solved, shaft: number, other: number): string | null {
  const [own, placed] = [solved.placement.shafts[shaft], solved.placement.shafts[other]];
  if (!own || !placed) return null;
  const name = shaftName(solved.drive, other);
  const { relation, distance, angle } = linePair(placed, own);
  if (relation === "one line") return `on one line with ${name}`;
  if (relation === "parallel") {
    const offset = square(sub(own.origin, placed.origin), placed.axis);
    return `${quantity(distance, "mm")} ${sideWords(unit(offset))} ${name}, parallel to it`;
  }
  const at = `at ${quantity(angle, "°")} to ${name}`;
  return relation === "meeting"
    ? `${at}, the two axes meet`
    : `${at}, ${quantity(distance, "mm")} past it (the axes don't meet)`;
}

/** How a shaft lies and where it stands beside the one that places it; a sentence part for each. */
export function shaftPlace(solved: Solved, shaft: number): string[] {
  const { drive, index, placement } = solved;
  const placed = placement.shafts[shaft];
  const data = drive.shafts[shaft];
  if (!placed || !data) return ["has no place yet"];
  const words = [lieWords(placed)];
  const mesh = index.meshes.get(placed.placedBy);
  const by =
    placed.placedBy === "coaxial"
      ? index.shafts.get(data.coaxial ?? "")
      : mesh === undefined
        ? undefined
        : index.shaftsOfMesh[mesh]?.find((other) => other !== shaft);
  const beside = by === undefined ? null : standsBeside(solved, shaft, by);
  if (beside) words.push(beside);
  const carrier = index.frameOfShaft[shaft] ?? -1;
  if (carrier >= 0) words.push(`carried by ${shaftName(drive, carrier)}`);
  return words;
}

/** "60 mm along Cross shaft, towards its mixer end": the place of a gear on its shaft. */
export function gearPlace(solved: Solved, gear: number): string {
  const data = solved.drive.gears[gear];
  const shaft = solved.index.shaftOfGear[gear] ?? -1;
  if (!data || shaft < 0) return "";
  const name = shaftName(solved.drive, shaft);
  if (data.at === 0) return `at ${quantity(0, "mm")} along ${name}`;
  const end = endNames(solved, shaft)[data.at > 0 ? "plus" : "minus"];
  return `${quantity(Math.abs(data.at), "mm")} along ${name}, towards the ${end}`;
}
