/**
 * Why the height of a pitch cone doesn't set the ratio. At a shaft angle of 90 degrees each height is the other gear's radius, so
 * height over height gives the right number there, by chance; at any other angle it doesn't. With h = R cos δ on one slant R,
 * h1 : h2 = (z2 + z1 cos Σ) : (z1 + z2 cos Σ), a fraction where cos Σ is one.
 */
import { makeGear, makeMesh } from "../drive/defaults";
import type { Gear } from "../drive/types";
import { bevelPair } from "../mesh-kinds/bevel-pair";
import type { PairShape } from "../mesh-kinds/contract";
import { divide, isZero, multiply, plus, type Rational, rational, ZERO } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { PlacedMesh } from "../solved";
import type { Unit, UnitChoice } from "../units/choice";
import { DEGREE } from "../vector";
import { gearSize, nameText, quantityIn } from "../wording";
import { call, EQUALS, type Formula, LESS, number, operator, symbol, TIMES } from "./formula";
import type { MeshEnd, MeshWalk } from "./mesh-sizes";
import { said, type WorkingLine, type WorkingStep, type WorkingTable, worked } from "./working-lines";

/** Degrees; the only ones between 0 and 180 with a cosine that is a fraction (Niven's theorem). */
const COSINES: ReadonlyMap<number, Rational> = new Map([
  [60, rational(1n, 2n)],
  [90, ZERO],
  [120, rational(-1n, 2n)],
]);
/** Teeth and module, mm, of the pair that shows the trap where it is plainest. */
const SHOWN_TEETH = [20, 30] as const;
const SHOWN_MODULE = 2;
/** Parts of the cone distance below which a height is that of a flat crown. */
const FLAT = 1e-9;

/** mm, of both pitch cones: from the base at the heel to the apex; negative past a crown, where the cone opens the other way. */
export const coneHeights = ({ pitchAngles, coneDistances }: PairShape): readonly [number, number] => {
  const height = (side: 0 | 1): number => {
    const cos = Math.cos(pitchAngles[side]);
    return Math.abs(cos) < FLAT ? 0 : coneDistances[side] * cos;
  };
  return [height(0), height(1)];
};

/** Height of the first cone over that of the second, exactly; null at an angle whose cosine is no fraction, or over a flat crown. */
export function heightsExactly(first: Gear, second: Gear, shaftAngle: number): Rational | null {
  const cos = COSINES.get(shaftAngle);
  if (!cos) return null;
  const [z1, z2] = [exactSize(first), exactSize(second)];
  const under = plus(z1, multiply(z2, cos));
  return isZero(under) ? null : divide(plus(z2, multiply(z1, cos)), under);
}

const signed = (value: number, unit: Unit = ""): Formula =>
  value < 0 ? [LESS, number(-value, unit)] : [number(value, unit)];
const proportion = ({ n, d }: Rational): Formula => [...signed(Number(n)), operator(":"), number(Number(d))];

interface Shown {
  readonly gears: readonly [Gear, Gear];
  readonly shape: (shaftAngle: number) => PairShape;
  readonly angles: readonly number[];
  readonly caption: string;
  readonly names: readonly [string, string];
  readonly about: readonly string[];
}

function heightTable({ gears, shape, angles, caption, names, about }: Shown, units: UnitChoice): WorkingTable {
  const [z1, z2] = [exactSize(gears[0]), exactSize(gears[1])];
  // Turns of the first to turns of the second: no fraction, and so no convention to mistake.
  const turns = divide(z2, z1);
  const rows = angles.map((angle) => {
    const [h1, h2] = coneHeights(shape(angle));
    const exact = heightsExactly(gears[0], gears[1], angle);
    const heights = exact
      ? proportion(exact)
      : h2 === 0
        ? [...signed(1), operator(":"), number(0)]
        : [...signed(h1 / h2), operator(":"), number(1)];
    return {
      words: quantityIn(angle, "°", units),
      cells: [signed(h1, "mm"), signed(h2, "mm"), heights, proportion(turns)],
    };
  });
  return {
    caption,
    head: [
      "shaft angle",
      `height of ${names[0]}`,
      `height of ${names[1]}`,
      "heights",
      `turns of ${names[0]} to turns of ${names[1]}`,
    ],
    rows,
    about,
  };
}

function shownPair(units: UnitChoice): Omit<Shown, "about"> {
  const gear = (id: string, teeth: number): Gear =>
    makeGear({ id, shaft: id, kind: "bevel", teeth, module: SHOWN_MODULE });
  const gears = [gear("a", SHOWN_TEETH[0]), gear("b", SHOWN_TEETH[1])] as const;
  return {
    gears,
    shape: (shaftAngle) => bevelPair.shape(makeMesh({ id: "m", gears: ["a", "b"], shaftAngle }), gears),
    angles: [...COSINES.keys()],
    caption: `${SHOWN_TEETH[0]} teeth drive ${SHOWN_TEETH[1]}, ${units.tooth === "pitch" ? "diametral pitch" : "module"} ${quantityIn(SHOWN_MODULE, "module", units)}`,
    names: [`${SHOWN_TEETH[0]} teeth`, `${SHOWN_TEETH[1]} teeth`],
  };
}

function heightLine({ gear, side }: MeshEnd, placed: PlacedMesh): WorkingLine {
  const { pitchAngles, coneDistances } = placed.shape;
  const angle = number(pitchAngles[side] / DEGREE, "°");
  return worked(
    `Height of the pitch cone of ${nameText(gear.id)}`,
    [symbol("h", gear.id), EQUALS, symbol("R"), TIMES, call("cos", [symbol("δ", gear.id)])],
    [number(coneDistances[side], "mm"), TIMES, call("cos", [angle])],
    coneHeights(placed.shape)[side],
    "mm",
    [gear.id],
  );
}

/** The step for a pair of cones. */
export function heightStep({ near, far }: MeshWalk, placed: PlacedMesh, units: UnitChoice): WorkingStep {
  const { mesh, gears } = placed.pair;
  const about = [mesh.id, near.gear.id, far.gear.id];
  const own = Number((placed.shape.shaftAngle / DEGREE).toPrecision(12));
  const angles = [...new Set([...COSINES.keys(), own])].sort((a, b) => a - b);
  const [first, second] = [nameText(near.gear.id), nameText(far.gear.id)];
  const shape = (shaftAngle: number): PairShape => {
    const { radii, pitchAngles, coneDistances, ...rest } = placed.kind.shape({ ...mesh, shaftAngle }, gears);
    const turned = <T>(pair: readonly [T, T]): readonly [T, T] => (near.side === 0 ? pair : [pair[1], pair[0]]);
    return {
      ...rest,
      radii: turned(radii),
      pitchAngles: turned(pitchAngles),
      coneDistances: turned(coneDistances),
    };
  };
  const isPast = angles.some((angle) => coneHeights(shape(angle)).some((height) => height < 0));
  return {
    title: `Why height does not matter: ${first} and ${second}`,
    about,
    lines: [
      heightLine(near, placed),
      heightLine(far, placed),
      said(
        "At a shaft angle of 90° each height is the other gear's pitch radius, so the heights happen to be as the turns; at any other angle they are not, and the turns stay as they were",
        about,
      ),
      ...(isPast ? [said("A height with a minus: past a flat crown the cone opens the other way", about)] : []),
    ],
    tables: [
      heightTable({ ...shownPair(units), about }, units),
      heightTable(
        {
          gears: [near.gear, far.gear],
          shape,
          angles,
          caption: `This pair: ${first} (${gearSize(near.gear, units)}) drives ${second} (${gearSize(far.gear, units)})`,
          names: [first, second],
          about,
        },
        units,
      ),
    ],
  };
}
