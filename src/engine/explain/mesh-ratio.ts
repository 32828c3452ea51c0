/**
 * The ratio of a mesh, worked in every way that tells it: teeth, pitch diameters, circumferences and, for cones, the sines of
 * their pitch angles (z1 sin δ2 = z2 sin δ1; Khurmi & Gupta, Theory of Machines). All end in one exact fraction.
 */
import { type Gear, hasTeeth, pitchDiameter } from "../drive/types";
import { divide, equals, fromNumber, invert, multiply, type Rational, toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { PlacedMesh, Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { DEGREE } from "../vector";
import { shaftName, turnsWords } from "../wording";
import { call, EQUALS, type Formula, fraction, number, symbol, TIMES } from "./formula";
import { type MeshEnd, type MeshWalk, sizeNumber, sizeSymbol } from "./mesh-sizes";
import { ratioConvention, sizeConvention } from "./ratio-words";
import { type RatioForm, said, type WorkingLine, worked } from "./working-lines";

const exactDiameter = (gear: Gear): Rational =>
  hasTeeth(gear) ? multiply(exactSize(gear), fromNumber(gear.module)) : exactSize(gear);

/** What one gear gives to the ratio, in symbols, in numbers and as a double. */
interface Part {
  readonly symbols: Formula;
  readonly numbers: Formula;
  readonly value: number;
}

const diameterPart = ({ gear }: MeshEnd): Part => {
  const value = pitchDiameter(gear);
  return { symbols: [symbol("d", gear.id)], numbers: [number(value, "mm")], value };
};

const circumferencePart = (end: MeshEnd): Part => {
  const { symbols, numbers, value } = diameterPart(end);
  const pi = symbol("π");
  return { symbols: [pi, TIMES, ...symbols], numbers: [pi, TIMES, ...numbers], value: Math.PI * value };
};

const sinePart = ({ gear, side }: MeshEnd, placed: PlacedMesh): Part => {
  const angle = placed.shape.pitchAngles[side];
  return {
    symbols: [call("sin", [symbol("δ", gear.id)])],
    numbers: [call("sin", [number(angle / DEGREE, "°")])],
    value: Math.sin(angle),
  };
};

const sizePart = ({ gear }: MeshEnd): Part => ({
  symbols: [sizeSymbol(gear)],
  numbers: [sizeNumber(gear)],
  value: toNumber(exactSize(gear)),
});

/** The lines of the ratio from the near gear to the far one: the turns, then each form of the fraction, the usual one first. */
export function ratioLines(solved: Solved, { near, far }: MeshWalk, placed: PlacedMesh, units: UnitChoice) {
  const about = [placed.pair.mesh.id, near.gear.id, far.gear.id];
  const turns = divide(exactSize(near.gear), exactSize(far.gear));
  const isOutputOver = units.ratio === "output";
  const exact = isOutputOver ? invert(turns) : turns;
  const [over, under] = isOutputOver ? [far, near] : [near, far];
  const line = (form: RatioForm, words: string, part: (end: MeshEnd) => Part): WorkingLine => {
    const [above, below] = [part(over), part(under)];
    return {
      ...worked(
        words,
        [symbol("i"), EQUALS, fraction(above.symbols, below.symbols)],
        [fraction(above.numbers, below.numbers)],
        above.value / below.value,
        "",
        about,
      ),
      exact,
      form,
    };
  };
  const isToothed = hasTeeth(near.gear) && hasTeeth(far.gear);
  const isCone = placed.kind.needsShaftAngle;
  const first = `Ratio of the mesh, ${sizeConvention(isToothed ? "teeth" : "diameter", units)}, that is ${ratioConvention(units)}`;
  const forms = [line(isToothed ? "teeth" : "diameters", first, sizePart)];
  if (!equals(divide(exactDiameter(over.gear), exactDiameter(under.gear)), exact)) {
    forms.push({
      ...said("The modules differ, so the diameters don't tell the ratio: the teeth do", about),
      form: "diameters",
    });
  } else {
    if (isToothed) {
      const words = `The same ratio by the pitch diameters${isCone ? " at the heel" : ""}, ${sizeConvention("diameter", units)}`;
      forms.push(line("diameters", words, diameterPart));
    }
    const circles = isCone ? "circumferences of the bases of the pitch cones" : "circumferences of the pitch circles";
    const rolled = `The same ratio by the ${circles}, ${sizeConvention("circumference", units)}: in one turn each rolls off its own`;
    forms.push(line("circumferences", rolled, circumferencePart));
  }
  if (isCone) {
    const words = `The same ratio by the pitch angles, ${sizeConvention("sine", units)}: both cones have one slant, so the radius of a base goes as the sine`;
    forms.push(line("sines", words, (end) => sinePart(end, placed)));
  }
  const [input, output] = [shaftName(solved.drive, near.shaft), shaftName(solved.drive, far.shaft)];
  return [said(turnsWords(input, output, turns, units), about), ...forms];
}
