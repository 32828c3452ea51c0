/** How the shafts of an open epicyclic train hang together: the speed of a carrier from two others on its line. */
import type { Drive } from "../drive/types";
import type { DriveIndex, MeshRow } from "../solved";
import type { Sum } from "./elimination";
import {
  absolute,
  divide,
  equals,
  gcd,
  isZero,
  minus,
  multiply,
  ONE,
  type Rational,
  rational,
  sign,
  toText,
  ZERO,
} from "./rational";
import { type System, speedOver } from "./system";

/** carrier = a · first + b · second, as speeds about their positive axes. */
export interface Relation {
  readonly carrier: number;
  readonly first: number;
  readonly second: number;
  readonly a: Rational;
  readonly b: Rational;
}

/** Solves c = a x + b y for sums that span a plane; null where they don't. */
function combine(c: Sum, x: Sum, y: Sum): { readonly a: Rational; readonly b: Rational } | null {
  const unknowns = [...new Set([...c.keys(), ...x.keys(), ...y.keys()])];
  const at = (sum: Sum, key: number): Rational => sum.get(key) ?? ZERO;
  for (let i = 0; i < unknowns.length; i++) {
    for (let j = i + 1; j < unknowns.length; j++) {
      const [p, q] = [unknowns[i] as number, unknowns[j] as number];
      const det = minus(multiply(at(x, p), at(y, q)), multiply(at(y, p), at(x, q)));
      if (isZero(det)) continue;
      const a = divide(minus(multiply(at(c, p), at(y, q)), multiply(at(y, p), at(c, q))), det);
      const b = divide(minus(multiply(at(x, p), at(c, q)), multiply(at(c, p), at(x, q))), det);
      const fits = unknowns.every((key) =>
        equals(at(c, key), minus(multiply(a, at(x, key)), multiply(rational(-b.n, b.d), at(y, key)))),
      );
      return fits ? { a, b } : null;
    }
  }
  return null;
}

/** One relation for each carrier that two central shafts mesh around; at most `most` of them. */
export function relations(
  drive: Drive,
  index: DriveIndex,
  system: System,
  rows: readonly (MeshRow | null)[],
  most = 4,
): Relation[] {
  const central = new Map<number, number[]>();
  for (const row of rows) {
    if (!row) continue;
    for (const side of [0, 1] as const) {
      const carrier = row.carrier[side];
      if (carrier === -1) continue;
      const list = central.get(carrier) ?? [];
      const end = index.shaftAt[2 * row.mesh + side] as number;
      if (!list.includes(end)) list.push(end);
      central.set(carrier, list);
    }
  }
  const found: Relation[] = [];
  for (const [carrier, suns] of central) {
    if (found.length >= most) break;
    const [first, second] = suns;
    if (first === undefined || second === undefined || !drive.shafts[carrier]) continue;
    const sums = [carrier, first, second].map((shaft) => speedOver(system, system.carriers, shaft));
    const mix = combine(sums[0] as Sum, sums[1] as Sum, sums[2] as Sum);
    if (mix) found.push({ carrier, first, second, ...mix });
  }
  return found;
}

/** "(L + R)/2 = C", "(2 S + 5 A)/7 = C". */
export function relationText(relation: Relation, name: (shaft: number) => string): string {
  const { a, b } = relation;
  const [first, second, carrier] = [relation.first, relation.second, relation.carrier].map(name);
  const common = a.d * (b.d / gcd(a.d, b.d));
  const [p, q] = [multiply(a, rational(common)), multiply(b, rational(common))];
  const term = (value: Rational, word: string | undefined): string =>
    equals(absolute(value), ONE) ? `${word}` : `${toText(absolute(value))} ${word}`;
  const left = `${sign(p) < 0 ? "-" : ""}${term(p, first)} ${sign(q) < 0 ? "-" : "+"} ${term(q, second)}`;
  return common === 1n ? `${left} = ${carrier}` : `(${left})/${common} = ${carrier}`;
}
