/** All that the panel shows of a choice: the four places round the shaft, which of them are free, and the drive that would be. */
import type { StageFields } from "../../engine/drive/commands/stage";
import { azimuthOf, clockFace, directionAt, placeWords } from "../../engine/explain/lies";
import type { Solved } from "../../engine/solved";
import { dot, unit } from "../../engine/vector";
import { shaftName } from "../../engine/wording";
import { freePlace } from "./along";
import { type Candidate, type Choice, candidateOf, fieldsOf, type Tried, tryStage } from "./candidate";
import { type Side, sideName, sidesOf } from "./sides";

/** One of the four places round the shaft, at an hour of the clock face. */
export interface Place extends Tried {
  readonly hour: 12 | 3 | 6 | 9;
  readonly azimuth: number;
  /** "above" */
  readonly words: string;
  readonly fields: StageFields;
}

export interface SideChoice {
  readonly side: Side;
  /** "motor end" */
  readonly name: string;
}

export interface Plan {
  readonly candidate: Candidate;
  readonly places: readonly Place[];
  /** The end from which the clock face is seen. */
  readonly seenFrom: string;
  /** The chosen place, or the first free one; null where none is. */
  readonly chosen: Place | null;
  readonly sides: readonly SideChoice[];
  readonly side: Side;
  readonly at: number;
}

const HOURS = [12, 3, 6, 9] as const;
/** Where a new shaft is best seen from the first eye: above first, then to the right, in front, behind, below. */
const BEST_SEEN = unit([0.6, -0.3, 1]);

/** The plan for a choice, or one sentence on why there can be none. */
export function planStage(solved: Solved, shaft: number, choice: Choice, wanted?: string): Plan | string {
  const placed = solved.placement.shafts[shaft];
  if (!placed) {
    return `${shaftName(solved.drive, shaft)} stands nowhere yet: join it to the drive by a mesh first, or choose another shaft.`;
  }
  const candidate = candidateOf(solved, shaft, choice, wanted);
  const face = clockFace(solved, shaft, placed);
  const order = sidesOf(solved, shaft);
  const sides: readonly SideChoice[] = [...order]
    .sort((a, b) => b - a)
    .map((side) => ({ side, name: sideName(solved, shaft, side) }));

  const placesAt = (side: Side, at: number): Place[] =>
    HOURS.map((hour) => {
      const azimuth = azimuthOf(face, placed, hour * 30);
      const fields = fieldsOf(solved, candidate, { azimuth, side, at });
      const words = placeWords(directionAt(placed, azimuth));
      return { hour, azimuth, words, fields, ...tryStage(solved, fields) };
    });
  const placeOn = (side: Side): number => choice.at ?? freePlace(solved, shaft, side, candidate.firstForm);

  let side = choice.side ?? order[0];
  let places = placesAt(side, placeOn(side));
  // Where neither end was asked for, the other one is taken if only that has room.
  if (choice.side === undefined && choice.at === undefined && !candidate.gear && places.every(isBlocked)) {
    const others = placesAt(order[1], placeOn(order[1]));
    if (!others.every(isBlocked)) [side, places] = [order[1], others];
  }
  const asked = places.find(({ azimuth }) => azimuth === choice.azimuth);
  const free = places
    .filter((place) => !isBlocked(place))
    .sort((a, b) => seen(directionAt(placed, b.azimuth)) - seen(directionAt(placed, a.azimuth)));
  const chosen = asked && !isBlocked(asked) ? asked : (free[0] ?? null);
  return { candidate, places, seenFrom: face.endName, chosen, sides, side, at: placeOn(side) };
}

const isBlocked = ({ blocked }: Tried): boolean => blocked !== null;
const seen = (direction: readonly [number, number, number]): number => dot(direction, BEST_SEEN);
