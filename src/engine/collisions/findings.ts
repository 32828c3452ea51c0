/** Collisions, and what sticks out of the space, as sentences. */
import type { Finding } from "../findings";
import type { Solved } from "../solved";
import { cross, length } from "../vector";
import {
  figures,
  gearName,
  limit,
  limitFigures,
  listNames,
  nameText,
  quantities,
  quantity,
  shaftName,
} from "../wording";
import type { Body } from "./bodies";
import { awayFrom } from "./carrying";
import { type Fit, fitInSpace, type SticksOut } from "./extents";
import { type Collision, type Collisions, collisionsOf } from "./find";
import { apartAlong } from "./gap";

/** More sentences than these are counted instead. */
const MOST_TOLD = 200;
/** Radians: axes that differ by less are parallel. */
const PARALLEL = 1e-6;

export function collisionFindings(solved: Solved): Finding[] {
  const found = collisionsOf(solved);
  const findings = found.list.slice(0, MOST_TOLD).map((collision) => sentence(solved, collision));
  findings.push(...untold(found));
  const fit = fitInSpace(solved);
  if (fit && fit.out.length > 0) findings.push(sticksOut(solved, fit));
  return findings;
}

/** "gear b1 (50 teeth, on Cross shaft)", "shaft Mixer". */
export function bodyName({ drive }: Solved, { kind, index, shaft }: Body): string {
  const gear = drive.gears[index];
  return kind === "gear" && gear ? `gear ${gearName(drive, gear, shaft)}` : `shaft ${shaftName(drive, shaft)}`;
}

export const bodyId = ({ drive }: Solved, { kind, index }: Body): string =>
  (kind === "gear" ? drive.gears[index]?.id : drive.shafts[index]?.id) ?? "";

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** "at rest", "when Carrier has turned 120° from where it stands at rest". */
export function momentWords({ drive }: Solved, turns: Collision["turns"]): string {
  if (turns.length === 0) return "at rest";
  const parts = turns.map(
    ({ carrier, degrees }) => `${shaftName(drive, carrier)} has turned ${quantity(degrees, "°", 3)}`,
  );
  return `when ${parts.join(" and ")} from rest`;
}

function sentence(solved: Solved, collision: Collision): Finding {
  const { bodies, overlap, turns } = collision;
  const [a, b] = bodies;
  const carriers = turns.flatMap(({ carrier }) => solved.drive.shafts[carrier]?.id ?? []);
  return {
    severity: "warning",
    code: "collision",
    at: [bodyId(solved, a), bodyId(solved, b), ...carriers],
    message:
      `${capital(bodyName(solved, a))} and ${bodyName(solved, b)} stand in one another by ${quantity(overlap, "mm", 3)} ` +
      `${momentWords(solved, turns)}; ${advice(solved, collision)}.`,
  };
}

/** What parts them, with sizes where they are known. */
function advice(solved: Solved, { bodies, turns }: Collision): string {
  const [a, b] = bodies;
  const { index, drive } = solved;
  const frame = index.frameOfShaft[a.shaft] ?? -1;
  const gears = bodies.filter(({ kind }) => kind === "gear");
  const isSibling = frame >= 0 && frame === index.frameOfShaft[b.shaft];
  if (isSibling && gears.length === 2) return "take fewer planets or smaller ones, or put them further apart";
  const isParallel = turns.length === 0 && length(cross(a.axis, b.axis)) < PARALLEL;
  const slide = -apartAlong(a, b, a.axis[0], a.axis[1], a.axis[2]);
  const by = isParallel && slide > 0 ? ` by ${limit(slide, "mm", "up")} or more` : "";
  if (gears.length === 2)
    return `slide one of them along its shaft${by}, or take another azimuth or other sizes for a mesh between them`;
  const [gear] = gears;
  if (!gear) return "take another azimuth, shaft angle or size for a mesh between them";
  const id = nameText(drive.gears[gear.index]?.id ?? "");
  const rod = gear === a ? b : a;
  const bore = 2 * (awayFrom(gear, rod.origin) + rod.profile.reach);
  const isThrough = isParallel && gear.profile.isSolid && bore < BORE_PART * 2 * gear.profile.reach;
  const through = isThrough ? `, give it a bore of more than ${limit(bore, "mm", "up")}` : "";
  return `slide gear ${id} along its shaft${through}, or take another azimuth for a mesh between them`;
}

/** A bore that takes more than this part of a gear leaves no rim to speak of. */
const BORE_PART = 0.7;

function untold({ list, unchecked, isCut }: Collisions): Finding[] {
  const more = list.length - MOST_TOLD;
  if (more <= 0 && unchecked === 0) return [];
  const told = more > 0 ? [`${figures(more)} more collisions were found than are listed`] : [];
  if (isCut) told.push("the drive has more near parts than one look can take, and the rest of them were not looked at");
  else if (unchecked > 0) {
    told.push(
      `${figures(unchecked)} ${unchecked === 1 ? "pair" : "pairs"} of parts on carriers within carriers could not be followed all the way round`,
    );
  }
  const message = `${capital(told.join("; "))}; ask for the clearance of the pairs that matter.`;
  return [{ severity: "note", code: "collisions-unchecked", at: [], message }];
}

const LOW_WORDS = ["on the left", "on the near side", "at the bottom"] as const;
const HIGH_WORDS = ["on the right", "on the far side", "at the top"] as const;
/** Parts that a finding points at, at the most. */
const MOST_OUT = 60;

/** "900 × any × 400 mm": left to right, near to far, bottom to top. */
export const boxWords = (sides: readonly (number | null)[]): string =>
  quantities(
    sides.map((x) => (x === null ? "any" : limitFigures(x, "mm", "up", 4))),
    " × ",
    "mm",
  );

function sticksOut(solved: Solved, { space, taken, out }: Fit): Finding {
  const parts: string[] = [];
  for (const [side, words] of [
    ["low", LOW_WORDS],
    ["high", HIGH_WORDS],
  ] as const) {
    for (const k of [0, 1, 2] as const) {
      const chief = out.reduce(
        (best: SticksOut | null, one) => (one[side][k] > (best?.[side][k] ?? 0) ? one : best),
        null,
      );
      if (!chief) continue;
      const by = limit(chief[side][k], "mm", "up");
      parts.push(`${by} ${words[k]} (${bodyName(solved, chief.body)})`);
    }
  }
  const size = boxWords(taken.high.map((x, k) => x - (taken.low[k] as number)));
  return {
    severity: "warning",
    code: "out-of-space",
    at: out.slice(0, MOST_OUT).map(({ body }) => bodyId(solved, body)),
    message:
      `The drive sticks out of its space by ${listNames(parts)}: it takes up ${size} (left to right, near to far, bottom to top), ` +
      `carriers turning, and the space is ${boxWords(space.size)}; make the drive smaller, turn parts of it by another azimuth, or make the space larger.`,
  };
}
