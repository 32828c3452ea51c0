/** The solver's output: what `format.md` fixes and any other program can check. Full doubles, never -0, no NaN. */
import { type Gear, hasTeeth, type Vec3 } from "./drive/types";
import type { Finding } from "./findings";
import { GEAR_FORMS } from "./mesh-kinds/gear-forms";
import { kindOf } from "./mesh-kinds/list";
import { divide, type Rational, toText } from "./motion/rational";
import { exactSize } from "./motion/rows";
import type { PlacedGear, Solved } from "./solved";
import { CROWN_COSINE } from "./tolerances";
import { cosDegrees, DEGREE } from "./vector";
import { nameText } from "./wording";

/** A fraction with more digits than this on either side is not written out. */
const MOST_DIGITS = 1000;

export interface ReportedShaft {
  readonly id: string;
  /** Id of the carrier, or `ground`. */
  readonly frame: string;
  /** mm. */
  readonly origin: Vec3 | null;
  /** Unit: the positive direction. */
  readonly axis: Vec3 | null;
  /** A mesh id, `pose`, `coaxial` or null. */
  readonly placedBy: string | null;
  /** Speed over that of the only turning input, in lowest terms: "-2/5". */
  readonly ratio: string | null;
  /** rev/min in its own frame. */
  readonly speed: number | null;
  /** rad/s, absolute, world axes. */
  readonly angularVelocity: Vec3 | null;
  /** N·m. */
  readonly torque: number | null;
  /** W. */
  readonly power: number | null;
}

export interface ReportedGear {
  readonly id: string;
  readonly centre: Vec3 | null;
  /** mm; at the heel for bevel gears and cones, like the two that follow. */
  readonly pitchDiameter: number | null;
  readonly tipDiameter: number | null;
  readonly rootDiameter: number | null;
  /** Degrees: 0 outside, 180 ring. */
  readonly pitchAngle: number | null;
  readonly coneDistance: number | null;
  readonly apexPoint: Vec3 | null;
  /** z / cos δ: negative past 90 degrees, null on a crown gear. */
  readonly virtualTeeth: number | null;
}

export interface ReportedMesh {
  readonly id: string;
  /** Teeth (or diameter) of the second gear over the first. */
  readonly ratio: string | null;
  /** Degrees between the outward axes: 0 an outside pair, 180 a ring pair. */
  readonly shaftAngle: number | null;
  readonly contact: readonly [Vec3, Vec3] | null;
  /** m/s. */
  readonly pitchSpeed: number | null;
  /** N. */
  readonly tangentialForce: number | null;
  readonly radialForces: readonly [number, number] | null;
  readonly axialForces: readonly [number, number] | null;
  readonly contactRatio: number | null;
}

export interface Report {
  readonly status: string;
  readonly mobility: number;
  readonly shafts: readonly ReportedShaft[];
  readonly gears: readonly ReportedGear[];
  readonly meshes: readonly ReportedMesh[];
  readonly findings: readonly Finding[];
}

/** Notes that writing the numbers down brings about, each with the parts it is about. */
class Notes {
  readonly #outOfRange = new Set<string>();
  readonly #tooLong = new Set<string>();

  /** The number, 0 for -0; null with a note where no double holds it. */
  number(x: number | null | undefined, id: string): number | null {
    if (x === null || x === undefined) return null;
    if (Number.isFinite(x)) return x + 0;
    this.#outOfRange.add(id);
    return null;
  }

  numbers<T extends readonly number[]>(list: T | null | undefined, id: string): T | null {
    if (!list) return null;
    const safe = list.map((x) => this.number(x, id));
    return safe.includes(null) ? null : (safe as unknown as T);
  }

  fraction(ratio: Rational | null | undefined, id: string): string | null {
    if (!ratio) return null;
    const text = toText(ratio);
    if (text.length <= MOST_DIGITS) return text;
    const isLong = text.split("/").some((side) => side.replace("-", "").length > MOST_DIGITS);
    if (isLong) this.#tooLong.add(id);
    return isLong ? null : text;
  }

  /** The findings, and after them the notes that none of them has given yet. */
  added(findings: readonly Finding[]): readonly Finding[] {
    const notes = [
      note(
        findings,
        "ratio-long",
        this.#tooLong,
        `has more than ${MOST_DIGITS.toLocaleString("en")} digits a side and is not written out`,
      ),
      note(
        findings,
        "out-of-range",
        this.#outOfRange,
        "holds a number that is too large or too small to be written; use sizes nearer to everyday ones",
      ),
    ];
    return [...findings, ...notes.flatMap((one) => one ?? [])];
  }
}

function note(
  findings: readonly Finding[],
  code: "ratio-long" | "out-of-range",
  ids: ReadonlySet<string>,
  words: string,
): Finding | null {
  const told = new Set(findings.flatMap((finding) => (finding.code === code ? finding.at : [])));
  const at = [...ids].filter((id) => !told.has(id));
  if (at.length === 0) return null;
  const names = at.slice(0, 6).map(nameText).join(", ");
  const more = at.length > 6 ? ` and ${at.length - 6} more` : "";
  const subject = code === "ratio-long" ? `The exact ratio of ${names}${more}` : `${names}${more}`;
  return { severity: "note", code, at, message: `${subject} ${words}.` };
}

/** What the solver prints for a drive, as plain data in the format's order of keys; `JSON.stringify` loses nothing of it. */
export function report(solved: Solved): Report {
  const { motion } = solved;
  const notes = new Notes();
  const shafts = reportShafts(solved, notes);
  const gears = solved.drive.gears.map((gear, i) => reportGear(gear, solved.placement.gears[i] ?? null, notes));
  const meshes = reportMeshes(solved, notes);
  return {
    status: motion.status,
    mobility: motion.mobility,
    shafts,
    gears,
    meshes,
    findings: notes.added(solved.findings).map(({ severity, code, at, message }) => ({ severity, code, at, message })),
  };
}

function reportShafts({ drive, placement, motion, load }: Solved, notes: Notes): ReportedShaft[] {
  return drive.shafts.map(({ id, frame }, i) => {
    const placed = placement.shafts[i];
    const carried = load.shafts[i];
    return {
      id,
      frame: frame ?? "ground",
      origin: notes.numbers(placed?.origin, id),
      axis: notes.numbers(placed?.axis, id),
      placedBy: placed?.placedBy ?? null,
      ratio: notes.fraction(motion.ratios[i], id),
      speed: notes.number(motion.speed[i], id),
      angularVelocity: notes.numbers(motion.angularVelocity[i], id),
      torque: notes.number(carried?.torque, id),
      power: notes.number(carried?.power, id),
    };
  });
}

function reportGear(gear: Gear, placed: PlacedGear | null, notes: Notes): ReportedGear {
  const { id } = gear;
  // A gear on a shaft that nothing reaches still has its sizes, where no mesh decides them.
  const angle = placed ? placed.pitchAngle : GEAR_FORMS[gear.kind].pitchAngle;
  const cosine = angle === null ? null : cosDegrees(angle);
  // A ring's shift counts the other way: positive moves its profile outward.
  const shift = angle === 180 ? -gear.shift : gear.shift;
  const module = hasTeeth(gear) ? gear.module : 0;
  const pitch = hasTeeth(gear) ? gear.teeth * gear.module : gear.diameter;
  const at = (height: number): number | null => (cosine === null ? null : pitch + 2 * module * height * cosine);
  const virtual = cosine === null || Math.abs(cosine) < CROWN_COSINE || !hasTeeth(gear) ? null : gear.teeth / cosine;
  return {
    id,
    centre: notes.numbers(placed?.centre, id),
    pitchDiameter: notes.number(pitch, id),
    tipDiameter: notes.number(at(gear.addendum + shift), id),
    rootDiameter: notes.number(at(-(gear.addendum + gear.clearance - shift)), id),
    pitchAngle: notes.number(angle, id),
    coneDistance: notes.number(placed?.coneDistance, id),
    apexPoint: notes.numbers(placed?.apexPoint, id),
    virtualTeeth: notes.number(virtual, id),
  };
}

function reportMeshes({ drive, index, placement, load }: Solved, notes: Notes): ReportedMesh[] {
  return drive.meshes.map((mesh, i) => {
    const { id } = mesh;
    const [g1, g2] = index.gearsOfMesh[i] as readonly [number, number];
    const pair = [drive.gears[g1] as Gear, drive.gears[g2] as Gear] as const;
    const placed = placement.meshes[i];
    const forces = load.meshes[i];
    const angle = mesh.shaftAngle ?? (kindOf(pair[0].kind, pair[1].kind)?.shape(mesh, pair).shaftAngle ?? 0) / DEGREE;
    const contact = placed && placed.width > 0 ? placed.contact : null;
    const [from, to] = [notes.numbers(contact?.[0], id), notes.numbers(contact?.[1], id)];
    return {
      id,
      ratio: notes.fraction(divide(exactSize(pair[1]), exactSize(pair[0])), id),
      shaftAngle: angle,
      contact: from && to ? [from, to] : null,
      pitchSpeed: notes.number(forces?.pitchSpeed, id),
      tangentialForce: notes.number(forces?.tangentialForce, id),
      radialForces: notes.numbers(forces?.radialForces, id),
      axialForces: notes.numbers(forces?.axialForces, id),
      contactRatio: notes.number(forces?.contactRatio, id),
    };
  });
}
