/**
 * Planetary sets of a sun, equal planets and a ring: other counts for another speed. With i = ring / sun Willis gives
 * n_sun + i n_ring = (1 + i) n_carrier, so any one wanted speed gives i; ring = sun + 2 planet lets the planets fit.
 */

import { inTurn } from "../drive/commands/edit";
import { hasTeeth, type ToothedGear } from "../drive/types";
import { type GearSet, gearSets } from "../explain/gear-sets";
import { wayTo } from "../explain/route";
import { GEAR_FORMS } from "../mesh-kinds/gear-forms";
import { divide, isZero, minus, multiply, negate, type Rational, rational, sign, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import { listNames, nameText } from "../wording";
import type { Proposal } from "./change";
import { isRing, remade, setTeeth } from "./parts";
import { NEAR_ENOUGH } from "./tooth-counts";

/** Counts tried: fewest of sun and planet, and the most of the ring. */
const FEWEST = 15;
const MOST_RING = 240;

export interface PlainSet {
  readonly set: GearSet;
  readonly sun: number;
  readonly ring: number;
  readonly sunGear: ToothedGear;
  readonly ringGear: ToothedGear;
  readonly planets: readonly ToothedGear[];
}

const isCylinder = (gear: ToothedGear): boolean => GEAR_FORMS[gear.kind].pitchAngle === 0;

/** The set as one sun, one ring and planets of one gear each, all alike; null where it is another kind of set. */
export function plainSet(solved: Solved, set: GearSet): PlainSet | null {
  const { drive, index } = solved;
  const gearsIn = new Map<number, Set<number>>();
  for (const mesh of set.meshes) {
    (index.gearsOfMesh[mesh] ?? []).forEach((gear, side) => {
      const shaft = index.shaftsOfMesh[mesh]?.[side] ?? -1;
      gearsIn.set(shaft, (gearsIn.get(shaft) ?? new Set()).add(gear));
    });
  }
  const only = (shaft: number): ToothedGear | null => {
    const [gear, ...more] = gearsIn.get(shaft) ?? [];
    const data = gear === undefined ? undefined : drive.gears[gear];
    return data && more.length === 0 && hasTeeth(data) ? data : null;
  };
  if (set.centrals.length !== 2) return null;
  const [a, b] = set.centrals as [number, number];
  const [gearA, gearB] = [only(a), only(b)];
  const planets = set.planets.map(only);
  if (!gearA || !gearB || planets.some((planet) => !planet || !isCylinder(planet))) return null;
  const isRingA = isRing(gearA);
  if (isRingA === isRing(gearB) || !isCylinder(isRingA ? gearB : gearA)) return null;
  const first = planets[0];
  if (!first || planets.some((planet) => planet?.teeth !== first.teeth || planet?.module !== first.module)) return null;
  return {
    set,
    sun: isRingA ? b : a,
    ring: isRingA ? a : b,
    sunGear: isRingA ? gearB : gearA,
    ringGear: isRingA ? gearA : gearB,
    planets: planets as ToothedGear[],
  };
}

/** ring / sun for which the member asked about runs so many times as fast, the other two as they are; null where none does. */
function wantedQuotient(solved: Solved, plain: PlainSet, member: number, times: Rational): Rational | null {
  const about = (shaft: number): Rational | null => {
    const speed = solved.motion.speeds[shaft] ?? null;
    return speed && plain.set.senseOf(shaft) < 0 ? negate(speed) : speed;
  };
  const speed = (shaft: number): Rational | null => {
    const own = shaft === plain.set.carrier ? (solved.motion.speeds[shaft] ?? null) : about(shaft);
    return own && shaft === member ? multiply(own, times) : own;
  };
  const [sun, ring, carrier] = [speed(plain.sun), speed(plain.ring), speed(plain.set.carrier)];
  if (!sun || !ring || !carrier || isZero(minus(carrier, ring))) return null;
  const quotient = divide(minus(sun, carrier), minus(carrier, ring));
  return sign(quotient) > 0 ? quotient : null;
}

/** Other counts of the sets on the way to a shaft, or that it belongs to. */
export function otherPlanetCounts(solved: Solved, shaft: number, times: Rational): Proposal[] {
  const way = new Set([shaft, ...wayTo(solved, shaft).map(({ from }) => from)]);
  return gearSets(solved).flatMap((set) => {
    const plain = plainSet(solved, set);
    if (!plain) return [];
    // The member by which the way leaves the set: the last of its members that the way passes.
    const order = [
      shaft,
      ...wayTo(solved, shaft)
        .map(({ from }) => from)
        .toReversed(),
    ];
    const member = order.find((one) => [set.carrier, ...set.centrals].includes(one));
    if (member === undefined || !way.has(member)) return [];
    const wanted = wantedQuotient(solved, plain, member, times);
    if (!wanted) return [];
    return nearestCounts(toNumber(wanted), plain).map(({ sun, planet, ring }) => ({
      means: "planets",
      title: `Give the sun ${sun}, the planets ${planet} and the ring ${ring} teeth`,
      edit: inTurn(
        setTeeth(plain.sunGear.id, sun),
        remade(plain.ringGear.id, { teeth: ring }),
        ...plain.planets.map(({ id }) => setTeeth(id, planet)),
      ),
      how: `${plain.sunGear.teeth}, ${plain.planets[0]?.teeth} and ${plain.ringGear.teeth} until now (${listNames([plain.sunGear.id, ...plain.planets.map(({ id }) => id), plain.ringGear.id].map(nameText))}).`,
    }));
  });
}

interface SetCounts {
  readonly sun: number;
  readonly planet: number;
  readonly ring: number;
}

/** How many are tried out in full. */
const MOST_TRIED = 6;

/** Counts with ring = sun + 2 planet nearest to a quotient ring / sun; those by which as many planets go in as there are. */
function nearestCounts(quotient: number, { sunGear, ringGear, planets }: PlainSet): SetCounts[] {
  const found: (SetCounts & { readonly miss: number })[] = [];
  for (let sun = FEWEST; sun < MOST_RING; sun++) {
    for (const ring of [Math.floor(quotient * sun), Math.ceil(quotient * sun)]) {
      const planet = (ring - sun) / 2;
      if (!Number.isInteger(planet) || planet < FEWEST || ring > MOST_RING) continue;
      if ((sun + ring) % planets.length !== 0) continue;
      // What matters is the speed, which goes with 1 + i or i: the quotient itself tells near enough.
      const miss = Math.abs(ring / sun / quotient - 1);
      if (miss <= 2 * NEAR_ENOUGH) found.push({ sun, planet, ring, miss });
    }
  }
  const size = ({ ring }: SetCounts): number => Math.abs(ring - ringGear.teeth);
  return found
    .filter(({ sun, ring }) => sun !== sunGear.teeth || ring !== ringGear.teeth)
    .sort((a, b) => a.miss - b.miss || size(a) - size(b))
    .slice(0, MOST_TRIED);
}

/** (sun + ring) teeth over the number of planets, as a fraction: whole where equal planets can be assembled. */
export const assemblyQuotient = (sun: number, ring: number, planets: number): Rational =>
  rational(BigInt(sun + ring), BigInt(planets));
