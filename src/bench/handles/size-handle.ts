/**
 * The handle on the tip circle of a gear, in one of three ways: its own teeth, and its mates follow; its teeth and its mate's in their
 * ratio; or the module of all gears that it is joined with, teeth as they are. On a gear without teeth it pulls the diameter.
 */
import { type Edit, isRefused } from "../../engine/drive/commands/edit";
import { setGear } from "../../engine/drive/commands/gear";
import { type Gear, hasTeeth, LIMITS, type ToothedGear } from "../../engine/drive/types";
import { GEAR_FORMS } from "../../engine/mesh-kinds/gear-forms";
import { frameOfMesh } from "../../engine/motion/pose-at";
import { solve } from "../../engine/solve";
import type { Solved, Vec3 } from "../../engine/solved";
import { along, clamp, scale, sub } from "../../engine/vector";
import { figures, nameText, quantity, toothSizeName, toothSizeWords } from "../../engine/wording";
import { placedSide } from "../lean";
import { type Handle, straightTrack } from "./handle";
import { moduleAfter, nearestModule } from "./series";
import { soundEdit } from "./sound";
import { freely, freeModule, further, onStep, toothSizes } from "./steps";

export type SizeWay = "teeth" | "ratio" | "module";

/** Fewer make no gear worth the name; the number field takes what the format allows. */
const LEAST_TEETH = 5;
const MOST_TEETH = 400;

/** The mesh that counts for a gear: that by which its shaft hangs on it, else its first; -1 for none. */
function chiefMesh(solved: Solved, gear: number): number {
  const { index } = solved;
  const own = (index.meshesOfShaft[index.shaftOfGear[gear] ?? -1] ?? []).filter((mesh) =>
    index.gearsOfMesh[mesh]?.includes(gear),
  );
  const placing = own.find((mesh) => {
    const side = placedSide(solved, mesh);
    return side !== null && index.gearsOfMesh[mesh]?.[side] === gear;
  });
  return placing ?? own[0] ?? -1;
}

/** The point of the tip circle that is furthest from the mate. */
function tipOf(solved: Solved, gear: number, mesh: number): Vec3 | null {
  const { drive, index, placement } = solved;
  const [data, placed] = [drive.gears[gear], placement.gears[gear]];
  const shaft = placement.shafts[index.shaftOfGear[gear] ?? -1];
  if (!data || !placed || !shaft) return null;
  const side = index.gearsOfMesh[mesh]?.[0] === gear ? 0 : 1;
  const towards = placement.meshes[mesh]?.towards[side];
  const radius = placed.pitchDiameter / 2 + addendum(data) * Math.cos(((placed.pitchAngle ?? 0) * Math.PI) / 180);
  return along(placed.centre, towards ? scale(towards, -1) : shaft.ref, radius);
}

const addendum = (gear: Gear): number =>
  hasTeeth(gear)
    ? gear.module * (gear.addendum + (GEAR_FORMS[gear.kind].pitchAngle === 180 ? -gear.shift : gear.shift))
    : 0;

const divisor = (a: number, b: number): number => (b === 0 ? a : divisor(b, a % b));

type Numbers = Pick<
  Handle,
  "name" | "value" | "least" | "most" | "text" | "said" | "perPixel" | "snap" | "stepped" | "label"
> & {
  readonly edit: (value: number) => Edit;
};

export function sizeHandle(solved: Solved, gear: number, way: SizeWay): Handle | null {
  const { drive, index, placement } = solved;
  const data = drive.gears[gear];
  if (!data || !placement.gears[gear]) return null;
  const mesh = chiefMesh(solved, gear);
  const pair = index.gearsOfMesh[mesh];
  const mate = pair && drive.gears[pair[0] === gear ? pair[1] : pair[0]];
  const numbers = hasTeeth(data)
    ? way === "module"
      ? moduleNumbers(data)
      : teethNumbers(data, way === "ratio" && mate && hasTeeth(mate) ? mate : null)
    : diameterNumbers(data, way === "teeth" ? null : (mate ?? null));
  const tip = tipOf(solved, gear, mesh);
  if (!tip) return null;
  const joined = (index.meshesOfShaft[index.shaftOfGear[gear] ?? -1] ?? []).flatMap(
    (one) => drive.meshes[one]?.id ?? [],
  );
  const edit = (value: number): Edit => soundEdit(numbers.edit(value), joined);
  return {
    ...numbers,
    key: `size ${data.id}`,
    sort: "size",
    // A bit further is asked of the solver: what moves with a count depends on which of the two hangs on the other.
    ...straightTrack(numbers.value, tip, () => wayOf(solved, gear, mesh, tip, numbers)),
    frame: mesh >= 0 ? frameOfMesh(solved, mesh) : (index.frameOfShaft[index.shaftOfGear[gear] ?? -1] ?? -1),
    told: (value) => `${nameText(data.id)}: ${numbers.said(value)}`,
    edit,
  };
}

function wayOf(solved: Solved, gear: number, mesh: number, tip: Vec3, { value, edit, stepped }: Numbers): Vec3 {
  for (const steps of [1, -1]) {
    const next = stepped(value, steps);
    const result = next === value ? null : edit(next)(solved.drive);
    const moved = result && !isRefused(result) ? tipOf(solve(result, solved), gear, mesh) : null;
    if (moved) return scale(sub(moved, tip), 1 / (next - value));
  }
  return [0, 0, 0];
}

const teethText = (count: number): string => `${figures(count)} ${count === 1 ? "tooth" : "teeth"}`;

function teethNumbers({ id, teeth }: ToothedGear, mate: ToothedGear | null): Numbers {
  const common = mate ? divisor(teeth, mate.teeth) : teeth;
  const [step, other] = [teeth / common, mate ? mate.teeth / common : 0];
  const most = Math.max(MOST_TEETH, teeth);
  // The mate keeps to the format's bounds too.
  const highest = Math.max(1, Math.floor(mate ? Math.min(most / step, LIMITS.teeth / other) : most / step));
  const lowest = Math.min(teeth / step, Math.ceil(Math.min(LEAST_TEETH, teeth) / step));
  const whole = (value: number): number => clamp(Math.round(value / step), lowest, highest) * step;
  return {
    name: `Teeth of ${nameText(id)}`,
    value: teeth,
    least: lowest * step,
    most: highest * step,
    text: (count) => (mate ? `${figures(count)} : ${figures((count / step) * other)} teeth` : teethText(count)),
    said: (count) => (mate ? `${teethText(count)}, its mate ${figures((count / step) * other)}` : teethText(count)),
    perPixel: 0.2 * step,
    // Teeth are whole, whether one snaps or not.
    snap: (value) => whole(value),
    stepped: (value, steps) => whole(value + steps * step),
    edit: (count) => (drive) => {
      const first = setGear(id, { teeth: count })(drive);
      return mate && !isRefused(first) ? setGear(mate.id, { teeth: (count / step) * other })(first) : first;
    },
    label: mate ? `teeth of ${id} and ${mate.id}` : `teeth of ${id}`,
  };
}

function moduleNumbers({ id, module }: ToothedGear): Numbers {
  const least = Math.min(module, toothSizes()[0] ?? module);
  const most = Math.max(module, toothSizes().at(-1) ?? module);
  return {
    name: `Size: ${toothSizeName()} of ${nameText(id)} and its mates`,
    value: module,
    least,
    most,
    text: (value) => toothSizeWords(value),
    said: (value) => toothSizeWords(value),
    perPixel: 0.02 * module,
    snap: (value, isFree) => {
      const within = clamp(value, least, most);
      return isFree ? freeModule(within) : nearestModule(within, toothSizes());
    },
    stepped: (value, steps) => moduleAfter(value, steps, toothSizes()),
    edit: (value) => setGear(id, { module: value }),
    label: `module of ${id}`,
  };
}

function diameterNumbers(gear: Exclude<Gear, ToothedGear>, mate: Gear | null): Numbers {
  const { id, diameter } = gear;
  const other = mate && !hasTeeth(mate) ? mate : null;
  const [least, most] = [Math.min(5, diameter), Math.max(1000, diameter)];
  return {
    name: other ? `Diameter of ${nameText(id)} and its mate` : `Diameter of ${nameText(id)}`,
    value: diameter,
    least,
    most,
    text: (value) => `diameter ${quantity(value, "mm")}`,
    said: (value) => quantity(value, "mm"),
    perPixel: 0.5,
    snap: (value, isFree) => clamp(isFree ? freely(value) : onStep(value), least, most),
    stepped: (value, steps) => clamp(further(value, steps), least, most),
    edit: (value) => (drive) => {
      const first = setGear(id, { diameter: value })(drive);
      const both = other && Number(((other.diameter * value) / diameter).toPrecision(9));
      return other && both !== null && !isRefused(first) ? setGear(other.id, { diameter: both })(first) : first;
    },
    label: `diameter of ${id}`,
  };
}
