/**
 * The one place that decides which figures may be shown while a drive's question stands open. `veiled` gives a solution in which
 * what is hidden is null, so that whoever reads it cannot tell it; `solved.veil` says that it is hidden and not unknown.
 */
import { type Figure, type Question, questionOf } from "../drive/question";
import type { Drive, Port } from "../drive/types";
import type { FindingCode } from "../findings";
import type { Load, Motion, Solved, Vec3, Veil } from "../solved";

/** Whether the drive itself gives the figure, so that a question can't hide it: the speed of an input, the load of an output. */
export function isGiven(port: Port | undefined, figure: Figure): boolean {
  if (!port) return false;
  return figure === "torque" ? port.role === "output" && port.torque !== undefined : port.role !== "output";
}

/** The figures of a shaft that a question hides (the drive's own, unless another is asked), those left out that the drive gives; empty for none. */
export function hiddenFigures(drive: Drive, shaft: string, question = questionOf(drive)): ReadonlySet<Figure> {
  const asked = question.get(shaft);
  if (!asked) return new Set();
  const port = drive.ports.find((one) => one.shaft === shaft);
  return new Set([...asked].filter((figure) => !isGiven(port, figure)));
}

/** Whether a drive asks anything at all. */
export const asksAnything = (drive: Drive): boolean =>
  questionOf(drive).size > 0 && drive.shafts.some(({ id }) => hiddenFigures(drive, id).size > 0);

/** Speed and ratio each give the other away, since the input's speed is known; power gives away either of its factors. */
function isHidden(figures: ReadonlySet<Figure>, figure: Figure | "power"): boolean {
  const speed = figures.has("speed") || figures.has("ratio");
  if (figure === "power") return speed || figures.has("torque");
  return figure === "speed" || figure === "ratio" ? speed : figures.has(figure);
}

/** Findings whose sentences tell figures of motion or load. */
const TELLING: ReadonlySet<FindingCode> = new Set<FindingCode>([
  "free",
  "ratio-long",
  "out-of-range",
  "self-locking",
  "equal-sharing",
  "input-short",
  "slips",
  "ratio-range",
  "pitch-speed",
]);

const made = new WeakMap<Solved, { readonly question: Question; readonly shown: Solved }>();

/**
 * The solution as it may be shown while a question stands open, the drive's own unless another is asked in its place; the same object
 * where it asks nothing.
 */
export function veiled(truth: Solved, question: Question = questionOf(truth.drive)): Solved {
  if (truth.veil || question.size === 0) return truth;
  const known = made.get(truth);
  if (known?.question === question) return known.shown;
  const figures = hiddenByIndex(truth, question);
  const shown = figures.size === 0 ? truth : hide(truth, figures);
  made.set(truth, { question, shown });
  return shown;
}

function hiddenByIndex({ drive, index }: Solved, question: Question): ReadonlyMap<number, ReadonlySet<Figure>> {
  const hidden = new Map<number, ReadonlySet<Figure>>();
  for (const id of question.keys()) {
    const shaft = index.shafts.get(id);
    const figures = hiddenFigures(drive, id, question);
    if (shaft !== undefined && figures.size > 0) hidden.set(shaft, figures);
  }
  return hidden;
}

function hide(truth: Solved, figures: ReadonlyMap<number, ReadonlySet<Figure>>): Solved {
  // Torques trade with speeds: beside one that is given, the others would tell the ratio.
  const isRatioHidden = [...figures.values()].some((own) => isHidden(own, "ratio"));
  const isLoadTold = (shaft: number, figure: Figure | "power"): boolean =>
    (figure === "torque" || figure === "power") &&
    !isGiven(truth.drive.ports[truth.index.portOfShaft[shaft] ?? -1], "torque");
  const veil: Veil = {
    hides: (shaft, figure) => {
      const own = figures.get(shaft);
      return (own !== undefined && isHidden(own, figure)) || (isRatioHidden && isLoadTold(shaft, figure));
    },
    speedSize: (shaft) => {
      const speed = truth.motion.speed[shaft] ?? null;
      return speed === null || veil.hides(shaft, "speed") ? null : Math.abs(speed);
    },
  };
  return {
    drive: truth.drive,
    index: truth.index,
    placement: truth.placement,
    motion: hideMotion(truth, veil),
    load: hideLoad(truth, veil),
    get findings() {
      return truth.findings.filter(({ code }) => !TELLING.has(code));
    },
    veil,
  };
}

function hideMotion({ motion, index }: Solved, veil: Veil): Motion {
  /** A signed number tells both how fast and which way. */
  const isSecret = (shaft: number): boolean => veil.hides(shaft, "speed") || veil.hides(shaft, "direction");
  const masked = <T>(list: readonly (T | null)[], hides = isSecret): (T | null)[] =>
    list.map((value, shaft) => (hides(shaft) ? null : value));
  const rides = (shaft: number): boolean => {
    for (let at = shaft; at >= 0; at = index.frameOfShaft[at] ?? -1) if (isSecret(at)) return true;
    return false;
  };
  let speeds: Motion["speeds"] | undefined;
  let ratios: Motion["ratios"] | undefined;
  let velocities: readonly (Vec3 | null)[] | undefined;
  return {
    status: motion.status,
    mobility: motion.mobility,
    missingInputs: motion.missingInputs,
    rows: motion.rows,
    get speeds() {
      speeds ??= masked(motion.speeds);
      return speeds;
    },
    get ratios() {
      ratios ??= masked(motion.ratios);
      return ratios;
    },
    speed: masked(motion.speed),
    way: motion.way.map((way, shaft) => (veil.hides(shaft, "direction") ? 0 : way)),
    isFixed: motion.isFixed.map((fixed, shaft) => (veil.hides(shaft, "direction") ? 0 : fixed)),
    get angularVelocity() {
      velocities ??= masked(motion.angularVelocity, rides);
      return velocities;
    },
    part: motion.part,
    locked: motion.locked,
    system: motion.system,
    findings: motion.findings.filter(({ code }) => !TELLING.has(code)),
  };
}

function hideLoad({ load, index }: Solved, veil: Veil): Load {
  return {
    shafts: load.shafts.map(({ torque, power }, shaft) => ({
      // With its direction hidden a torque has no sign either.
      torque:
        torque === null || veil.hides(shaft, "torque")
          ? null
          : veil.hides(shaft, "direction")
            ? Math.abs(torque)
            : torque,
      power: veil.hides(shaft, "power") ? null : power,
    })),
    meshes: load.meshes.map((mesh, i) => {
      const shafts = index.shaftsOfMesh[i] ?? [-1, -1];
      const any = (figure: Figure | "power"): boolean => shafts.some((shaft) => veil.hides(shaft, figure));
      const isForceSecret = any("torque") || any("direction");
      return {
        driver: mesh.driver,
        torques: isForceSecret ? null : mesh.torques,
        pitchSpeed: any("speed") ? null : mesh.pitchSpeed,
        tangentialForce: any("torque") ? null : mesh.tangentialForce,
        radialForces: any("torque") ? null : mesh.radialForces,
        axialForces: any("torque") ? null : mesh.axialForces,
        contactRatio: mesh.contactRatio,
        loss: any("power") ? null : mesh.loss,
        slipTorque: any("torque") ? null : mesh.slipTorque,
      };
    }),
    // "torque × 5, no losses" is the ratio in other words.
    gain: load.gain.map((gain, shaft) => (veil.hides(shaft, "power") || veil.hides(shaft, "direction") ? null : gain)),
    findings: load.findings.filter(({ code }) => !TELLING.has(code)),
  };
}
