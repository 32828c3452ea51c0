/** The worked solution for one shaft: step by step from the input that drives it, as data. */
import { divide, invert, multiply, ONE, sign, toNumber } from "../motion/rational";
import { exactSize } from "../motion/rows";
import type { Solved } from "../solved";
import type { UnitChoice } from "../units/choice";
import { figuresIn, nameText, quantityIn, shaftName, turnsWords } from "../wording";
import { thumbWords, turning } from "./directions";
import { EQUALS, type Formula, fraction, symbol, TIMES, type Token } from "./formula";
import { type GearSet, gearSets } from "./gear-sets";
import { heightStep } from "./heights";
import { type MeshWalk, meshWalk, shaftId, sizeNumber, sizeSymbol, speedSymbol } from "./mesh-sizes";
import { carriedStep, meshStep } from "./mesh-step";
import { missingSpeed, missingTorque } from "./missing";
import { powerLine } from "./power-line";
import { ratioWords } from "./ratio-words";
import { type RoutePoint, routeOf, wayTo } from "./route";
import { setStep } from "./set-step";
import { lacking, said, type WorkingLine, type WorkingStep, worked } from "./working-lines";

/** A link by itself, or several that pass through one set. */
type Leg =
  | { readonly kind: "link"; readonly point: RoutePoint }
  | { readonly kind: "set"; readonly set: GearSet; readonly entry: number; readonly exit: number };

function legs(solved: Solved, way: readonly RoutePoint[]): Leg[] {
  const setOfMesh = new Map<number, GearSet>();
  const setOfPlanet = new Map<number, GearSet>();
  for (const set of gearSets(solved)) {
    for (const mesh of set.meshes) setOfMesh.set(mesh, set);
    for (const planet of set.planets) setOfPlanet.set(planet, set);
  }
  const found: Leg[] = [];
  for (const point of way) {
    const { link, from, shaft } = point;
    const set = link.kind === "mesh" ? setOfMesh.get(link.mesh) : setOfPlanet.get(link.isOutward ? shaft : from);
    const last = found[found.length - 1];
    if (!set) found.push({ kind: "link", point });
    else if (last?.kind === "set" && last.set === set) found[found.length - 1] = { ...last, exit: shaft };
    else found.push({ kind: "set", set, entry: from, exit: shaft });
  }
  return found;
}

function legStep(solved: Solved, leg: Leg, units: UnitChoice): WorkingStep | null {
  if (leg.kind === "set") return setStep(solved, leg.set, leg.entry, leg.exit, units);
  const { link, from, shaft } = leg.point;
  if (link.kind === "mesh") {
    const walk = meshWalk(solved, link.mesh, link.near);
    return walk && meshStep(solved, walk, units);
  }
  const [carrier, rider] = link.isOutward ? [from, shaft] : [shaft, from];
  const [name, riding] = [shaftName(solved.drive, carrier), shaftName(solved.drive, rider)];
  const about = [shaftId(solved, rider), shaftId(solved, carrier)];
  return {
    title: `${riding} rides on ${name}`,
    about,
    lines: [
      said(
        `${name} carries ${riding} round; the speed of ${riding} is counted as an eye riding on ${name} sees it`,
        about,
      ),
    ],
  };
}

const hasNoOutput = (solved: Solved): boolean => !solved.drive.ports.some((port) => port.role === "output");
const NOTHING_CARRIED = "No shaft is an output, so no load is carried and every torque is 0";

/** What is known where the way begins. */
function startStep(solved: Solved, shaft: number, units: UnitChoice): WorkingStep {
  const { drive, index, motion, load } = solved;
  const [name, id] = [shaftName(drive, shaft), shaftId(solved, shaft)];
  const port = drive.ports[index.portOfShaft[shaft] ?? -1];
  const speed = motion.speed[shaft] ?? null;
  const lines: WorkingLine[] = [];
  if (port?.role === "input") {
    lines.push(
      worked(`Speed of ${name}, given`, [speedSymbol(solved, shaft, units)], [], Math.abs(port.speed ?? 0), "rev/min", [
        id,
      ]),
    );
    const torque = load.shafts[shaft]?.torque ?? null;
    const symbols = [symbol("T", id)];
    const needed = `Torque that ${name} needs for the loads given`;
    if (torque === 0 && hasNoOutput(solved)) lines.push(said(NOTHING_CARRIED, [id]));
    else if (torque === null) lines.push(lacking(needed, symbols, missingTorque(solved), [id]));
    else lines.push(worked(needed, symbols, [], Math.abs(torque), "N·m", [id]));
  } else if (port?.role === "held") lines.push(said(`${name} is held: ${quantityIn(0, "rev/min", units)}`, [id]));
  else if (speed === null)
    lines.push(
      lacking(`Speed of ${name}`, [speedSymbol(solved, shaft, units)], missingSpeed(solved, shaft) ?? "", [id]),
    );
  else
    lines.push(worked(`Speed of ${name}`, [speedSymbol(solved, shaft, units)], [], Math.abs(speed), "rev/min", [id]));
  const thumb = thumbWords(solved, shaft);
  lines.push(said(`Direction: ${name}: ${turning(solved, shaft)}${thumb ? ` (${thumb})` : ""}`, [id]));
  const title = port?.role === "input" ? `${name} drives` : `Start at ${name}`;
  return { title, about: [id], lines };
}

/** The ratios of all meshes multiplied, where every leg is a mesh. */
function totalLines(
  solved: Solved,
  start: number,
  shaft: number,
  all: readonly Leg[],
  units: UnitChoice,
): WorkingLine[] {
  const points = all.flatMap((leg) => (leg.kind === "link" && leg.point.link.kind === "mesh" ? [leg.point.link] : []));
  if (points.length < all.length || points.length < 2) return [];
  const walks = points.flatMap(({ mesh, near }) => meshWalk(solved, mesh, near) ?? []);
  const isOutputOver = units.ratio === "output";
  const product = (part: (gear: (typeof walks)[number]["near"]["gear"]) => Token): Formula =>
    walks.flatMap(({ near, far }, i) => {
      const [over, under] = isOutputOver ? [far, near] : [near, far];
      return [...(i === 0 ? [] : [TIMES]), fraction([part(over.gear)], [part(under.gear)])];
    });
  // Long by short each time: no gcd of two long numbers.
  const turns = walks.reduce(
    (value, { near, far }) => multiply(value, divide(exactSize(near.gear), exactSize(far.gear))),
    ONE,
  );
  const exact = isOutputOver ? invert(turns) : turns;
  const [input, output] = [shaftName(solved.drive, start), shaftName(solved.drive, shaft)];
  const about = [shaftId(solved, shaft), shaftId(solved, start)];
  const words = ratioWords(input, output, turns, units);
  return [
    said(words.turns, about),
    {
      ...worked(
        `Ratio of the whole way, the ratios of its meshes multiplied, ${words.convention}`,
        [symbol("i"), EQUALS, ...product(sizeSymbol)],
        product(sizeNumber),
        toNumber(exact),
        "",
        about,
      ),
      exact,
    },
  ];
}

/** Speed, direction, torque and power of the shaft itself. */
function resultStep(solved: Solved, start: number, shaft: number, all: readonly Leg[], units: UnitChoice): WorkingStep {
  const { drive, motion, load } = solved;
  const [name, id] = [shaftName(drive, shaft), shaftId(solved, shaft)];
  const lines = totalLines(solved, start, shaft, all, units);
  const speed = motion.speed[shaft] ?? null;
  const ratio = motion.ratios[shaft] ?? null;
  if (ratio && sign(ratio) !== 0 && lines.length === 0 && shaft !== start) {
    const input = drive.ports.find((port) => port.role === "input" && (port.speed ?? 0) !== 0);
    const driving = input ? solved.index.shafts.get(input.shaft) : undefined;
    if (driving !== undefined) lines.push(said(turnsWords(shaftName(drive, driving), name, ratio, units), [id]));
  }
  if (speed === null)
    lines.push(
      lacking(`Speed of ${name}`, [speedSymbol(solved, shaft, units)], missingSpeed(solved, shaft) ?? "", [id]),
    );
  else lines.push(said(`${name}: ${quantityIn(Math.abs(speed), "rev/min", units)}, ${turning(solved, shaft)}`, [id]));
  const [torque, power] = [load.shafts[shaft]?.torque ?? null, load.shafts[shaft]?.power ?? null];
  const gain = load.gain[shaft] ?? null;
  const isLossless = drive.meshes.every((mesh) => mesh.efficiency === 1);
  if (torque === null || (torque === 0 && gain !== null)) {
    if (torque === null) lines.push(lacking(`Torque at ${name}`, [symbol("T", id)], missingTorque(solved), [id]));
    if (gain !== null && shaft !== start)
      lines.push(
        said(
          `Whatever the load: torque × ${figuresIn(Math.abs(gain), units)}, ${isLossless ? "no losses" : "the losses of the meshes counted"}`,
          [id],
        ),
      );
    return { title: `At ${name}`, about: [id], lines };
  }
  if (torque === 0 && hasNoOutput(solved)) {
    return { title: `At ${name}`, about: [id], lines: [...lines, said(NOTHING_CARRIED, [id])] };
  }
  lines.push(worked(`Torque at ${name}`, [symbol("T", id)], [], Math.abs(torque), "N·m", [id]));
  if (power !== null && speed !== null) {
    lines.push(
      powerLine(
        `Power at ${name}: speed and torque trade, power stays, and only losses shrink it`,
        [symbol("P", id), speedSymbol(solved, shaft, units), symbol("T", id)],
        [Math.abs(speed), Math.abs(torque)],
        units,
        [id],
      ),
    );
  }
  return { title: `At ${name}`, about: [id], lines };
}

/**
 * The workings of a shaft (by index): where the way begins, one step for each mesh or planetary set on it, and the shaft
 * itself, told in the units chosen. Sizes of speeds and torques, but within planetary sets; which way things turn stands in words. Throws a
 * RangeError beyond the list.
 */
export function workingsOf(solved: Solved, shaft: number, units: UnitChoice): WorkingStep[] {
  if (!solved.drive.shafts[shaft]) throw new RangeError(`There is no shaft ${shaft}.`);
  const way = wayTo(solved, shaft);
  const start = way[0]?.from ?? shaft;
  if (way.length === 0) return [startStep(solved, shaft, units)];
  const all = legs(solved, way);
  const steps = all.flatMap((leg) => legStep(solved, leg, units) ?? []);
  return [startStep(solved, start, units), ...steps, resultStep(solved, start, shaft, all, units)];
}

/** The way that a mesh is told: from the gear that the drive reaches first, else from the one that drives. */
function walkOf(solved: Solved, mesh: number): MeshWalk | null {
  const reached = (solved.index.shaftsOfMesh[mesh] ?? [])
    .map((shaft) => routeOf(solved).cameBy[shaft]?.link)
    .find((link) => link?.kind === "mesh" && link.mesh === mesh);
  const near = reached?.kind === "mesh" ? reached.near : (solved.load.meshes[mesh]?.driver ?? 0);
  return meshWalk(solved, mesh, near);
}

/**
 * The workings of a mesh by itself: its own step, for cones why their heights don't set the ratio, and for a mesh of a planetary
 * set the step of that set. Throws a RangeError where no mesh has the id.
 */
export function meshWorkings(solved: Solved, id: string, units: UnitChoice): WorkingStep[] {
  const mesh = solved.index.meshes.get(id);
  if (mesh === undefined) throw new RangeError(`There is no mesh ${id}.`);
  const walk = walkOf(solved, mesh);
  const placed = solved.placement.meshes[mesh];
  if (!walk || !placed) {
    return [{ title: `Mesh ${nameText(id)}`, about: [id], lines: [said("Nothing says where this mesh stands", [id])] }];
  }
  const set = gearSets(solved).find(({ meshes }) => meshes.includes(mesh));
  const steps = set
    ? [carriedStep(solved, walk, placed, shaftName(solved.drive, set.carrier), units)]
    : [meshStep(solved, walk, units)];
  if (placed.kind.needsShaftAngle) steps.push(heightStep(walk, placed, units));
  if (set) steps.push(setStep(solved, set, ...endsOf(set), units));
  return steps.filter((step) => step !== null);
}

/** Two shafts to tell a set between: its central ones, else the first that there are. */
function endsOf(set: GearSet): readonly [number, number] {
  const [first = set.carrier, second = set.carrier] = [...set.centrals, ...set.planets];
  return [first, second];
}

/** The same for a shaft by its id. Throws a RangeError where no shaft has it. */
export function workings(solved: Solved, id: string, units: UnitChoice): WorkingStep[] {
  const shaft = solved.index.shafts.get(id);
  if (shaft === undefined) throw new RangeError(`There is no shaft ${id}.`);
  return workingsOf(solved, shaft, units);
}

export { workingText } from "./working-lines";
export type { WorkingLine, WorkingStep };
