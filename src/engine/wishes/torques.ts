/** Torque at a shaft: another ratio on the way, a stronger motor, or a load that asks for it. */

import { approximations } from "../design/approximations";
import { inTurn } from "../drive/commands/edit";
import { setPort } from "../drive/commands/port";
import type { Port } from "../drive/types";
import { fromNumber, type Rational, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import { quantity, shaftName } from "../wording";
import { outcome, type Proposal } from "./change";
import { speedChanges } from "./speeds";

/** A double as the simplest fraction within its rounding: a torque comes out of many sums. */
export function simpleFraction(x: number): Rational {
  if (!(x > 1e-6 && x < 1e6)) return fromNumber(Number(x.toPrecision(12)));
  const near = approximations(fromNumber(Number(x.toPrecision(12))), 20_000);
  return near.find((value) => Math.abs(toNumber(value) / x - 1) < 1e-9) ?? fromNumber(Number(x.toPrecision(12)));
}

const portOf = ({ drive, index }: Solved, shaft: number): Port | undefined =>
  drive.ports[index.portOfShaft[shaft] ?? -1];

const sized = ({ torque, power }: Port): boolean => torque !== undefined || power !== undefined;

const withSize = (port: Port, torque: number | undefined) => {
  const { shaft: _, torque: __, power: ___, ...rest } = port;
  return setPort(port.shaft, torque === undefined ? rest : { ...rest, torque });
};

const round = (torque: number): number => Number(torque.toPrecision(9));

export function torqueChanges(solved: Solved, shaft: number, wanted: number): Proposal[] {
  const port = portOf(solved, shaft);
  const now = Math.abs(solved.load.shafts[shaft]?.torque ?? 0);
  const name = shaftName(solved.drive, shaft);
  const id = solved.drive.shafts[shaft]?.id ?? "";
  if (port?.role === "input") return atInput(solved, shaft, port, wanted, now);
  if (port && sized(port)) return underLoad(solved, shaft, port, wanted);
  if (now > 0)
    return [...speedChanges(solved, shaft, simpleFraction(now / wanted)), ...strongerInputs(solved, wanted / now)];
  const load = port ?? { shaft: id, role: "output" as const };
  if (load.role !== "output") return [];
  const ask: Proposal = {
    means: "load",
    title: `Load ${name} with ${quantity(wanted, "N·m", 6)}`,
    edit: withSize(load, wanted),
    how: `${name} turns a load of ${quantity(wanted, "N·m", 6)}, and the input gives what that takes.`,
  };
  return [ask, ...sizedInput(solved, shaft, load, wanted)];
}

/** Each input that has a size, made so many times as strong. */
function strongerInputs(solved: Solved, times: number): Proposal[] {
  return solved.drive.ports
    .filter((port) => port.role === "input" && sized(port))
    .map((port) => {
      const name = shaftName(solved.drive, solved.index.shafts.get(port.shaft) ?? 0);
      const [key, unit] = port.torque === undefined ? (["power", "W"] as const) : (["torque", "N·m"] as const);
      const [was, is] = [port[key] ?? 0, round((port[key] ?? 0) * times)];
      const { shaft: _, ...rest } = port;
      return {
        means: "input",
        title: `Let ${name} give ${quantity(is, unit, 6)}`,
        edit: setPort(port.shaft, { ...rest, [key]: is }),
        how: `The input at ${name} gives ${quantity(is, unit, 6)} in place of ${quantity(was, unit, 6)}.`,
      };
    });
}

/** Without any size in the drive: the input's torque that gives the wanted one, by the torque multiplication of the train. */
function sizedInput(solved: Solved, shaft: number, load: Port, wanted: number): Proposal[] {
  const input = solved.drive.ports.find(({ role }) => role === "input");
  const gain = Math.abs(solved.load.gain[shaft] ?? 0);
  if (!input || sized(input) || !(gain > 0) || solved.drive.ports.some((port) => sized(port))) return [];
  const name = shaftName(solved.drive, solved.index.shafts.get(input.shaft) ?? 0);
  const torque = round(wanted / gain);
  return [
    {
      means: "input",
      title: `Let ${name} give ${quantity(torque, "N·m", 6)}`,
      edit: inTurn(withSize(input, torque), withSize(load, undefined)),
      how: `The train multiplies torque by ${quantity(gain, "", 4)}.`,
    },
  ];
}

/** A shaft whose load is given: the load is the torque, so it is asked for, and the ratio changed where the input would be short. */
function underLoad(solved: Solved, shaft: number, port: Port, wanted: number): Proposal[] {
  const name = shaftName(solved.drive, shaft);
  const ask: Proposal = {
    means: "load",
    title: `Load ${name} with ${quantity(wanted, "N·m", 6)}`,
    edit: withSize(port, wanted),
    how: `The torque at ${name} is its load, which is ${quantity(wanted, "N·m", 6)} from now on.`,
  };
  // What the input could give there, were no load said.
  const open = outcome(solved.drive, withSize(port, undefined));
  const most = Math.abs(open?.load.shafts[shaft]?.torque ?? 0);
  if (!(most > 0) || most >= wanted) return [ask];
  return [
    ask,
    ...speedChanges(solved, shaft, simpleFraction(most / wanted)).map((change) => ({
      ...change,
      edit: inTurn(change.edit, ask.edit),
      how: `${change.how ?? ""} ${ask.how}`.trim(),
    })),
  ];
}

/** An input's torque follows from the loads: another ratio to the loaded output, or its size where none is loaded. */
function atInput(solved: Solved, shaft: number, port: Port, wanted: number, now: number): Proposal[] {
  const loaded = solved.drive.ports.filter((other) => other.role === "output" && sized(other));
  const [only] = loaded;
  if (loaded.length === 0) {
    const name = shaftName(solved.drive, shaft);
    return [
      {
        means: "input",
        title: `Let ${name} give ${quantity(wanted, "N·m", 6)}`,
        edit: withSize(port, wanted),
        how: `The input at ${name} gives ${quantity(wanted, "N·m", 6)}.`,
      },
    ];
  }
  if (!only || loaded.length > 1 || !(now > 0)) return [];
  const output = solved.index.shafts.get(only.shaft) ?? -1;
  // Less torque at the input is a slower output.
  return speedChanges(solved, output, simpleFraction(wanted / now), { inputs: false });
}
