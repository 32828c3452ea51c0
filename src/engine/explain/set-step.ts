/**
 * The working of a planetary set or a differential: its meshes seen by an eye that rides on the carrier, where all axes stand and
 * spins keep fixed ratios (Willis, Principles of Mechanism, 1841). Spins there are n − n_C, or n of a planet itself.
 */
import { divide, minus, multiply, plus, type Rational, rational, sign, toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { nameText, quantityIn, shaftName } from "../wording";
import { sameWay, turning } from "./directions";
import {
  EQUALS,
  type Formula,
  fraction,
  group,
  LESS,
  number,
  operator,
  PLUS,
  symbol,
  TIMES,
  type Token,
  term,
} from "./formula";
import { asDifferential, differentialWords, type GearSet, type SetStep, trainValue, wayThrough } from "./gear-sets";
import { shaftId, sizeNumber, sizeSymbol, speedSymbol } from "./mesh-sizes";
import { missingSpeed } from "./missing";
import { setTable } from "./set-table";
import { lacking, said, type WorkingLine, type WorkingStep, worked } from "./working-lines";

/** The two shafts of the set whose spins the equation compares, and what it is solved for. */
interface Question {
  readonly set: GearSet;
  /** The reference: its spin is below the line. */
  readonly from: number;
  /** Its spin is above the line. */
  readonly to: number;
  /** The shaft whose speed is wanted: `to`, or the carrier. */
  readonly wanted: number;
  readonly way: readonly SetStep[];
  readonly value: Rational;
}

/** Ports first, for their speeds are given; then document order. */
const byPort =
  (solved: Solved) =>
  (a: number, b: number): number => {
    const hasPort = (shaft: number): number => ((solved.index.portOfShaft[shaft] ?? -1) >= 0 ? 0 : 1);
    return hasPort(a) - hasPort(b) || a - b;
  };

/** What the set has to answer between the shaft it is entered by and the one it is left by; null where no two spins tell. */
function ask(solved: Solved, set: GearSet, entry: number, exit: number): Question | null {
  const others = [...set.centrals].sort(byPort(solved)).filter((shaft) => shaft !== exit && shaft !== entry);
  const isInside = (shaft: number): boolean => shaft !== set.carrier;
  const from = isInside(entry) ? entry : others[0];
  const to = isInside(exit) ? exit : others.find((shaft) => shaft !== from);
  if (from === undefined || to === undefined) return null;
  const way = wayThrough(solved, set, from, to);
  if (!way || way.length === 0) return null;
  return { set, from, to, wanted: exit, way, value: trainValue(solved, way) };
}

/** n − n_C of a central shaft (n + n_C where its axis points the other way), n of a planet. */
function spinSymbols(solved: Solved, set: GearSet, shaft: number, units: UnitChoice): Formula {
  const own = speedSymbol(solved, shaft, units);
  const sense = set.senseOf(shaft);
  return sense === 0 ? [own] : [own, sense > 0 ? LESS : PLUS, speedSymbol(solved, set.carrier, units)];
}

/** "e = −(z_s / z_p) × (z_p / z_a)": the spin of the far shaft for one turn of the near one, the carrier standing. */
function valueLine(solved: Solved, { set, from, to, way, value }: Question): WorkingLine {
  const quotients = way.map(({ mesh, near }) => {
    const pair = solved.index.gearsOfMesh[mesh] ?? [-1, -1];
    const [driving, driven] = [solved.drive.gears[pair[near]], solved.drive.gears[pair[near === 0 ? 1 : 0]]];
    if (!driving || !driven) return null;
    return {
      symbols: fraction([sizeSymbol(driving)], [sizeSymbol(driven)]),
      numbers: fraction([sizeNumber(driving)], [sizeNumber(driven)]),
      size: divide(exactSize(driving), exactSize(driven)),
    };
  });
  const product = (tokens: readonly Token[]): Formula => [
    ...(sign(value) < 0 ? [operator("−")] : []),
    ...tokens.flatMap((token, i) => (i === 0 ? [token] : [TIMES, token])),
  ];
  const known = quotients.filter((quotient) => quotient !== null);
  const name = (shaft: number): string => shaftName(solved.drive, shaft);
  const about = way.map(({ mesh }) => solved.drive.meshes[mesh]?.id ?? "");
  return worked(
    `With ${name(set.carrier)} standing, turns of ${name(to)} for one of ${name(from)}` +
      `${sign(value) < 0 ? ", minus for opposite ways about their own axes" : ""}`,
    [symbol("e"), EQUALS, ...product(known.map(({ symbols }) => symbols))],
    product(known.map(({ numbers }) => numbers)),
    toNumber(value),
    "",
    about,
  );
}

function willisLine(solved: Solved, { set, from, to }: Question, units: UnitChoice): WorkingLine {
  const name = shaftName(solved.drive, set.carrier);
  return {
    ...said(
      `For an eye riding on ${name} all axes stand, so the spins it sees keep this ratio however ${name} turns`,
      [from, to, set.carrier].map((shaft) => shaftId(solved, shaft)),
    ),
    symbols: [
      fraction(spinSymbols(solved, set, to, units), spinSymbols(solved, set, from, units)),
      EQUALS,
      symbol("e"),
    ],
  };
}

/**
 * The equation solved for the wanted speed: n_to = s_to n_C + e (n_from − s_from n_C), or with the carrier wanted
 * n_C = (n_to − e n_from) / (s_to − e s_from).
 */
function speedLine(solved: Solved, { set, from, to, wanted, value }: Question, units: UnitChoice): WorkingLine {
  const words = `Speed of ${shaftName(solved.drive, wanted)}${set.senseOf(wanted) === 0 && wanted !== set.carrier ? ", to an eye riding on its carrier" : ""}`;
  const about = [shaftId(solved, wanted)];
  const [senseFrom, senseTo] = [set.senseOf(from), set.senseOf(to)];
  const e = symbol("e");
  const symbols: Formula =
    wanted === set.carrier
      ? [
          speedSymbol(solved, wanted, units),
          EQUALS,
          fraction(
            [speedSymbol(solved, to, units), LESS, e, TIMES, speedSymbol(solved, from, units)],
            [number(senseTo), LESS, e, TIMES, number(senseFrom)],
          ),
        ]
      : [
          speedSymbol(solved, wanted, units),
          EQUALS,
          ...(senseTo === 0
            ? []
            : [...(senseTo < 0 ? [operator("−")] : []), speedSymbol(solved, set.carrier, units), PLUS]),
          e,
          TIMES,
          group(...spinSymbols(solved, set, from, units)),
        ];
  const speed = (shaft: number): Rational | null => solved.motion.speeds[shaft] ?? null;
  const [speedFrom, speedTo, speedCarrier] = [speed(from), speed(to), speed(set.carrier)];
  const missing = [wanted, from, to, set.carrier]
    .map((shaft) => missingSpeed(solved, shaft))
    .find((why) => why !== null);
  if (missing || !speedFrom || !speedTo || !speedCarrier) return lacking(words, symbols, missing ?? "", about);
  const rate = (x: Rational): Token => number(toNumber(x), "rev/min");
  const ratio = number(toNumber(value));
  const scaled = (x: Rational, factor: number): Rational => multiply(x, rational(BigInt(factor)));
  if (wanted === set.carrier) {
    return worked(
      words,
      symbols,
      [
        fraction(
          [rate(speedTo), LESS, ratio, TIMES, rate(speedFrom)],
          [number(senseTo), LESS, ratio, TIMES, number(senseFrom)],
        ),
      ],
      toNumber(
        divide(minus(speedTo, multiply(value, speedFrom)), minus(rational(BigInt(senseTo)), scaled(value, senseFrom))),
      ),
      "rev/min",
      about,
    );
  }
  const carried = scaled(speedCarrier, senseTo);
  const spin = minus(speedFrom, scaled(speedCarrier, senseFrom));
  return worked(
    words,
    symbols,
    [...(senseTo === 0 ? [] : [rate(carried), PLUS]), ratio, TIMES, rate(spin)],
    toNumber(plus(carried, multiply(value, spin))),
    "rev/min",
    about,
  );
}

/** The torques that the rest of the world applies to the set's shafts by their teeth: they sum to 0 about the carrier's axis. */
function torqueLine(solved: Solved, set: GearSet): WorkingLine | null {
  const applied = set.centrals.map((shaft) => {
    let sum = 0;
    for (const mesh of set.meshes) {
      const side = solved.index.shaftsOfMesh[mesh]?.indexOf(shaft) ?? -1;
      if (side < 0) continue;
      const torques = solved.load.meshes[mesh]?.torques;
      if (!torques) return null;
      sum += torques[side === 0 ? 0 : 1];
    }
    // What the outside applies is against what the teeth apply.
    return -sum * (set.senseOf(shaft) || 1);
  });
  const known = applied.filter((torque) => torque !== null);
  if (known.length === 0 || known.length < applied.length || known.every((torque) => torque === 0)) return null;
  const name = shaftName(solved.drive, set.carrier);
  const carrier = symbol("T", shaftId(solved, set.carrier));
  const symbols = set.centrals.flatMap((shaft, i) => [...(i === 0 ? [] : [PLUS]), symbol("T", shaftId(solved, shaft))]);
  const numbers = known.flatMap((torque, i) => (i === 0 ? [number(torque, "N·m")] : term(torque, "N·m")));
  return worked(
    `Torques on the set balance about the axis of ${name}, counterclockwise seen from its + end positive: what ${name} must take`,
    [carrier, EQUALS, operator("−"), group(...symbols)],
    [operator("−"), group(...numbers)],
    -known.reduce((sum, torque) => sum + torque, 0),
    "N·m",
    [set.carrier, ...set.centrals].map((shaft) => shaftId(solved, shaft)),
  );
}

/** What is given of the shafts that the equation needs. */
function givenLine(solved: Solved, { set, from, to, wanted }: Question, units: UnitChoice): WorkingLine {
  const shafts = [from, to, set.carrier].filter((shaft, i, all) => shaft !== wanted && all.indexOf(shaft) === i);
  const parts = shafts.map((shaft) => {
    const speed = solved.motion.speed[shaft] ?? null;
    const held = solved.drive.ports[solved.index.portOfShaft[shaft] ?? -1]?.role === "held" ? "is held: " : "turns at ";
    return `${shaftName(solved.drive, shaft)} ${speed === null ? "has no fixed speed yet" : `${held}${quantityIn(speed, "rev/min", units)}${speed === 0 ? "" : `, ${turning(solved, shaft)}`}`}`;
  });
  return said(
    `Known: ${parts.join("; ")}`,
    shafts.map((shaft) => shaftId(solved, shaft)),
  );
}

/** Each shaft is told from an end of its own, so that one way can read as two: what it is beside the other; empty where that says nothing. */
function besideWords(solved: Solved, entry: number, exit: number): string {
  const way = entry === exit ? null : sameWay(solved, entry, exit);
  if (way === null) return "";
  return `, ${way === "the same way" ? "the same way as" : "the opposite way to"} ${shaftName(solved.drive, entry)}`;
}

/** All lines of a set, from the shaft that it is entered by to the one that it is left by. */
export function setStep(solved: Solved, set: GearSet, entry: number, exit: number, units: UnitChoice): WorkingStep {
  const name = (shaft: number): string => shaftName(solved.drive, shaft);
  const differential = asDifferential(solved, set);
  const about = [set.carrier, entry, exit].map((shaft) => shaftId(solved, shaft));
  const question = ask(solved, set, entry, exit);
  const lines: WorkingLine[] = question
    ? [valueLine(solved, question), willisLine(solved, question, units), givenLine(solved, question, units)]
    : [said(`${name(entry)} and ${name(exit)} are not tied to one another by this set alone`, about)];
  if (differential) {
    lines.push(
      said(
        `An open differential shares out the speed of its carrier: ${differentialWords(solved, differential)}`,
        about,
      ),
    );
  }
  if (question) lines.push(speedLine(solved, question, units));
  lines.push(
    said(`${name(exit)}: ${turning(solved, exit)}${besideWords(solved, entry, exit)}`, [shaftId(solved, exit)]),
  );
  const torques = torqueLine(solved, set);
  if (torques) lines.push(torques);
  const base = question && set.senseOf(question.from) !== 0 ? question.from : [...set.centrals].sort(byPort(solved))[0];
  const table = base === undefined ? null : setTable(solved, set, base, units);
  if (table) lines.push(...table.lines);
  const kind = differential ? "Differential" : "Planetary set";
  return {
    title: `${kind} on ${nameText(name(set.carrier))}: from ${name(entry)} to ${name(exit)}`,
    about: [...about, ...set.meshes.map((mesh) => solved.drive.meshes[mesh]?.id ?? "")],
    lines,
    ...(table ? { tables: [table.table] } : {}),
  };
}
