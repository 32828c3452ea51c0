/** The handle that swings the shaft which a mesh placed round the shaft that it was placed from: the mesh's azimuth. */
import { setMesh } from "../../engine/drive/commands/mesh";
import { frameOfMesh } from "../../engine/motion/pose-at";
import type { Solved } from "../../engine/solved";
import { along, cross, dot, length, square, sub } from "../../engine/vector";
import { figures, shaftName } from "../../engine/wording";
import { placedSide } from "../lean";
import { fullTurn, type Handle, nearestStop, roundTrack, toTenth } from "./handle";

const STEP = 15;
const NEAR = 4;
const STOPS = Array.from({ length: 25 }, (_, k) => k * STEP);

export function swingHandle(solved: Solved, mesh: number): Handle | null {
  const { drive, index, placement } = solved;
  const side = placedSide(solved, mesh);
  const [data, placed] = [drive.meshes[mesh], placement.meshes[mesh]];
  if (side === null || !data || !placed) return null;
  const [moving, still] = [index.shaftsOfMesh[mesh]?.[side] ?? -1, index.shaftsOfMesh[mesh]?.[1 - side] ?? -1];
  const shaft = placement.shafts[still];
  const [own, other] = [side, 1 - side].map((k) => placement.gears[index.gearsOfMesh[mesh]?.[k] ?? -1]);
  if (!shaft || !own || !other) return null;
  const { id } = data;
  const { radii } = placed.shape;
  // Beyond what is swung, as seen from the shaft that stays.
  const away = length(square(sub(own.centre, other.centre), shaft.axis));
  const isAngled = placed.kind.needsShaftAngle;
  const margin = 0.35 * Math.min(radii[0], radii[1]);
  const radius = (isAngled ? (radii[1 - side] ?? 0) : Math.max(away + radii[side], radii[1 - side] ?? 0)) + margin;
  const level = isAngled ? 0 : dot(sub(own.centre, other.centre), shaft.axis);
  const value = fullTurn(data.azimuth);
  return {
    key: `swing ${id}`,
    sort: "swing",
    name: `Swing: place of ${shaftName(drive, moving)} round ${shaftName(drive, still)}`,
    value,
    least: 0,
    most: 359,
    text: (to) => `${figures(to)}°`,
    said: (to) => `${figures(to)} degrees round`,
    told: (to) => `Azimuth ${figures(to)}°`,
    ...roundTrack(along(other.centre, shaft.axis, level), shaft.ref, cross(shaft.axis, shaft.ref), radius),
    frame: frameOfMesh(solved, mesh),
    perPixel: 0.4,
    snap: (to, isFree) =>
      fullTurn(isFree ? toTenth(fullTurn(to)) : (nearestStop(fullTurn(to), STOPS, NEAR) ?? Math.round(to))),
    stepped: (to, steps) => fullTurn(toTenth(to + steps)),
    edit: (to) => setMesh(id, { azimuth: to }),
    label: `azimuth of ${id}`,
  };
}
