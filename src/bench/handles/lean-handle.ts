/** The handle that leans one shaft of a pair, from a spur pair at 0 degrees through bevel gears to a ring at 180. */
import { leanMesh } from "../../engine/drive/commands/lean";
import { type Aligned, alignedWith } from "../../engine/placement/aligned";
import type { Solved } from "../../engine/solved";
import { clamp } from "../../engine/vector";
import { figures } from "../../engine/wording";
import { LEAST_LEAN, leaningPair, MOST_LEAN, snapLean } from "../lean";
import { type Handle, roundTrack } from "./handle";
import { soundEdit } from "./sound";

const KINDS: Readonly<Record<number, string>> = {
  [LEAST_LEAN]: ": parallel shafts, an outside pair",
  [MOST_LEAN]: ": parallel shafts, a pinion in a ring",
};

/** The handle of a mesh that placed one of its shafts; null for any other. */
export function leanHandle(solved: Solved, mesh: number): Handle | null {
  const pair = leaningPair(solved, mesh);
  if (!pair) return null;
  const { id, leans, angle, crown, staysOutward, towards, pivot, radius, reach } = pair;
  // The pitch circles touch at the pivot at every angle, so the knob, on the axis of the shaft that leans, goes round it.
  const ahead = (Math.atan2(radius, reach) * 180) / Math.PI;
  let aligned: Aligned | undefined;
  return {
    key: `lean ${id}`,
    sort: "lean",
    name: "Lean: angle between the two shafts",
    value: angle,
    least: LEAST_LEAN,
    most: MOST_LEAN,
    text: (value) => `${figures(value)}°`,
    said: (value) => `${figures(value)} degrees`,
    told: (value) => `Shaft angle ${figures(value)}°${KINDS[value] ?? ""}`,
    ...roundTrack(pivot, staysOutward, towards, Math.hypot(radius, reach), ahead),
    frame: pair.frame,
    perPixel: 0.4,
    snap: (value, isFree) => snapLean(value, crown, isFree),
    stepped: (value, steps) => clamp(Math.round((value + steps) * 10) / 10, LEAST_LEAN, MOST_LEAN),
    edit: (value) =>
      soundEdit(
        (drive) => {
          aligned ??= alignedWith(solved, pair.shaft);
          return leanMesh(id, { angle: value, leans, aligned })(drive);
        },
        [id],
      ),
    label: `shaft angle of ${id}`,
  };
}
