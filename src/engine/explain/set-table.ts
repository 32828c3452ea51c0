/**
 * A planetary set by the table method: lock everything and turn it once with the carrier; hold the carrier and turn one gear once;
 * then take as much of both as gives the speeds that are known, and add. Source: the tabular method of Khurmi & Gupta, Theory of
 * Machines, ch. 13. All turns are counted about the axis of the carrier.
 */
import {
  absolute,
  equals,
  isZero,
  minus,
  multiply,
  negate,
  ONE,
  plus,
  type Rational,
  sign,
  toNumber,
  ZERO,
} from "../motion/rational";
import type { Solved } from "../solved";
import { ON_AXIS } from "../tolerances";
import type { Unit, UnitChoice } from "../units/choice";
import { cross, dot, length } from "../vector";
import { listNames, shaftName } from "../wording";
import { EQUALS, type Formula, fraction, LESS, number, operator, symbol } from "./formula";
import { type GearSet, trainValue, wayThrough } from "./gear-sets";
import { shaftId, speedSymbol } from "./mesh-sizes";
import { said, type WorkingLine, type WorkingTable, worked } from "./working-lines";

/** Columns beyond which a table is no help. */
const MOST_COLUMNS = 8;
/** Digits beyond which a decimal is easier to read than a fraction. */
const MOST_DIGITS = 10_000n;

interface Column {
  readonly shafts: readonly number[];
  /** Turns about the carrier's axis for one of the base, the carrier held. */
  readonly held: Rational;
}

/** Whether a shaft's axis points along the carrier's, against it, or neither. */
function senseAlong(solved: Solved, set: GearSet, shaft: number): -1 | 0 | 1 {
  const sense = set.senseOf(shaft);
  if (sense !== 0) return sense;
  const [own, carrier] = [solved.placement.shafts[shaft]?.axis, solved.placement.shafts[set.carrier]?.axis];
  if (!own || !carrier || length(cross(own, carrier)) > ON_AXIS) return 0;
  return dot(own, carrier) > 0 ? 1 : -1;
}

const times = (value: Rational, sense: -1 | 0 | 1): Rational => (sense < 0 ? negate(value) : value);

/** The columns behind that of the carrier; planets that turn alike share one. */
function columnsOf(solved: Solved, set: GearSet, base: number): Column[] {
  const columns: Column[] = [{ shafts: [base], held: ONE }];
  for (const shaft of [...set.centrals.filter((one) => one !== base), ...set.planets]) {
    const sense = senseAlong(solved, set, shaft);
    const way = sense === 0 ? null : wayThrough(solved, set, base, shaft);
    if (!way) continue;
    const held = times(times(trainValue(solved, way), sense), set.senseOf(base));
    const alike = columns.findIndex(
      (column) =>
        set.planets.includes(shaft) && set.planets.includes(column.shafts[0] ?? -1) && equals(column.held, held),
    );
    const like = columns[alike];
    if (like) columns[alike] = { ...like, shafts: [...like.shafts, shaft] };
    else columns.push({ shafts: [shaft], held });
  }
  return columns.slice(0, MOST_COLUMNS - 1);
}

/** A number with its sign, as a fraction where that is short. */
function cell(value: Rational, unit: Unit = ""): Formula {
  const size = absolute(value);
  const isShort = unit === "" && size.d !== 1n && size.n < MOST_DIGITS && size.d < MOST_DIGITS;
  const shown = isShort ? fraction([number(Number(size.n))], [number(Number(size.d))]) : number(toNumber(size), unit);
  if (isZero(value)) return [shown];
  return [operator(sign(value) < 0 ? "−" : "+"), shown];
}

export interface SetTable {
  readonly lines: readonly WorkingLine[];
  readonly table: WorkingTable;
}

/** The table of a set by turns of `base`, one of its central shafts; null where no other shaft turns about a parallel axis. */
export function setTable(solved: Solved, set: GearSet, base: number, units: UnitChoice): SetTable | null {
  const columns = columnsOf(solved, set, base);
  if (columns.length < 2) return null;
  const name = (shaft: number): string => shaftName(solved.drive, shaft);
  const about = [set.carrier, base].map((shaft) => shaftId(solved, shaft));
  const [carrier, own] = [solved.motion.speeds[set.carrier] ?? null, solved.motion.speeds[base] ?? null];
  const all = (of: (held: Rational) => Rational, ofCarrier: Rational, unit: Unit = ""): Formula[] => [
    cell(ofCarrier, unit),
    ...columns.map(({ held }) => cell(of(held), unit)),
  ];
  const rows = [
    { words: "Locked together, all turned once", cells: all(() => ONE, ONE) },
    { words: `${name(set.carrier)} held, ${name(base)} turned once`, cells: all((held) => held, ZERO) },
  ];
  const lines: WorkingLine[] = [
    said(
      `By a table: first lock the whole set and turn it once; then hold ${name(set.carrier)} and turn ${name(base)} once. Every motion of the set is x times the first and y times the second, added; turns are counted about the axis of ${name(set.carrier)}, counterclockwise seen from its + end positive`,
      about,
    ),
  ];
  if (carrier && own && solved.motion.speed[set.carrier] !== null && solved.motion.speed[base] !== null) {
    const turned = times(own, set.senseOf(base));
    const y = minus(turned, carrier);
    const [x, speed] = [symbol("x"), speedSymbol(solved, base, units)];
    const back = set.senseOf(base) < 0 ? [LESS] : [];
    lines.push(
      worked(
        `x, for ${name(set.carrier)} turns with the first motion alone`,
        [x, EQUALS, speedSymbol(solved, set.carrier, units)],
        [],
        toNumber(carrier),
        "rev/min",
        [shaftId(solved, set.carrier)],
      ),
      worked(
        `y, the rest that ${name(base)} turns`,
        [symbol("y"), EQUALS, ...back, speed, LESS, x],
        [number(toNumber(turned), "rev/min"), LESS, number(toNumber(carrier), "rev/min")],
        toNumber(y),
        "rev/min",
        [shaftId(solved, base)],
      ),
    );
    rows.push(
      { words: "x times the first", cells: all(() => carrier, carrier, "rev/min") },
      { words: "y times the second", cells: all((held) => multiply(y, held), ZERO, "rev/min") },
      { words: "Added: what each does", cells: all((held) => plus(carrier, multiply(y, held)), carrier, "rev/min") },
    );
  }
  return {
    lines,
    table: {
      caption: `Table of the set on ${name(set.carrier)}`,
      head: ["motion", name(set.carrier), ...columns.map(({ shafts }) => listNames(shafts.map(name)))],
      rows,
      about,
    },
  };
}
