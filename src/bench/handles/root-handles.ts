/** The three handles that move a root shaft along the axes of the world. */
import { setShaft } from "../../engine/drive/commands/shaft";
import { pitchDiameter } from "../../engine/drive/types";
import type { Solved } from "../../engine/solved";
import { along, clamp } from "../../engine/vector";
import { quantity, shaftName } from "../../engine/wording";
import { type Handle, straightTrack } from "./handle";
import { freely, further, onCoarseStep } from "./steps";

const AXES = [
  ["x", [1, 0, 0]],
  ["y", [0, 1, 0]],
  ["z", [0, 0, 1]],
] as const;
/** mm either way, where the shaft isn't further away already. */
const ROOM = 1000;

export function rootHandles(solved: Solved, shaft: number): Handle[] {
  const { drive, index, placement } = solved;
  const [data, placed] = [drive.shafts[shaft], placement.shafts[shaft]];
  if (!data?.pose || !placed) return [];
  const { id, pose } = data;
  const sizes = (index.gearsOfShaft[shaft] ?? []).flatMap((gear) =>
    drive.gears[gear] ? pitchDiameter(drive.gears[gear]) : [],
  );
  const away = 0.75 * Math.max(40, ...sizes);
  return AXES.map(([sort, way], k): Handle => {
    const value = pose.origin[k] as number;
    const room = ROOM * Math.ceil(Math.max(1, Math.abs(value) / ROOM));
    return {
      key: `${sort} ${id}`,
      sort,
      name: `Place ${sort} of ${shaftName(drive, shaft)}`,
      value,
      least: -room,
      most: room,
      text: (to) => `${sort} ${quantity(to, "mm")}`,
      said: (to) => quantity(to, "mm"),
      told: (to) => `${shaftName(drive, shaft)} at ${sort} ${quantity(to, "mm")}`,
      ...straightTrack(value, along(pose.origin, way, away), () => way),
      frame: index.frameOfShaft[shaft] ?? -1,
      perPixel: 0.5,
      snap: (to, isFree) => clamp(isFree ? freely(to) : onCoarseStep(to), -room, room),
      stepped: (to, steps) => clamp(further(to, steps), -room, room),
      edit: (to) => setShaft(id, { pose: { ...pose, origin: along(pose.origin, way, to - value) } }),
      label: `place of ${id}`,
    };
  });
}
