/** Changes of what drives and holds, where nothing is built anew: an input reversed or set to another speed, another member held. */
import { inTurn } from "../drive/commands/edit";
import { setPort } from "../drive/commands/port";
import { makePort } from "../drive/defaults";
import type { Drive, Port } from "../drive/types";
import { gearSets } from "../explain/gear-sets";
import { absolute, fromDecimal, fromNumber, multiply, type Rational, toNumber } from "../motion/rational";
import type { Solved } from "../solved";
import { listNames, quantity, shaftName } from "../wording";
import type { Proposal } from "./change";

const nameOf = ({ drive, index }: Solved, port: Port): string => shaftName(drive, index.shafts.get(port.shaft) ?? 0);

const turningInputs = ({ drive }: Solved): Port[] => drive.ports.filter(({ role, speed }) => role === "input" && speed);

const reversed = (port: Port) =>
  setPort(port.shaft, {
    ...port,
    speed: -(port.speed ?? 0),
    ...(port.speedDigits === undefined
      ? {}
      : { speedDigits: port.speedDigits.startsWith("-") ? port.speedDigits.slice(1) : `-${port.speedDigits}` }),
  });

/** Each input the other way, and all of them. */
export function reversals(solved: Solved): Proposal[] {
  const inputs = turningInputs(solved);
  const each = inputs.map(
    (port): Proposal => ({
      means: "input",
      title: `Reverse the input at ${nameOf(solved, port)}`,
      edit: reversed(port),
      how: `${nameOf(solved, port)} is driven the other way round.`,
    }),
  );
  if (inputs.length < 2) return each;
  const names = listNames(inputs.map((port) => nameOf(solved, port)));
  return [
    ...each,
    {
      means: "input",
      title: "Reverse all inputs",
      edit: inTurn(...inputs.map(reversed)),
      how: `${names} are all driven the other way round.`,
    },
  ];
}

/** Figures to which a speed that no decimal can write is rounded. */
const FIGURES = 12;

/** Each input at another speed, so many times as fast. */
export function otherInputSpeeds(solved: Solved, times: Rational): Proposal[] {
  return turningInputs(solved).map((port): Proposal => {
    const exact = multiply(port.speedDigits ? fromDecimal(port.speedDigits) : fromNumber(port.speed ?? 0), times);
    const speed = Number(toNumber(exact).toPrecision(FIGURES));
    const { speedDigits: _, ...rest } = port;
    return {
      means: "input",
      title: `Drive ${nameOf(solved, port)} at ${quantity(Math.abs(speed), "rev/min", 6)}`,
      edit: setPort(port.shaft, { ...rest, speed }),
      how: `The input at ${nameOf(solved, port)} runs at ${quantity(Math.abs(speed), "rev/min", 6)} in place of ${quantity(Math.abs(port.speed ?? 0), "rev/min", 6)}.`,
    };
  });
}

const traded =
  (a: string, b: string) =>
  (drive: Drive): Drive => ({
    ...drive,
    ports: drive.ports.map((port) =>
      port.shaft === a || port.shaft === b ? makePort({ ...port, shaft: port.shaft === a ? b : a }) : port,
    ),
  });

/** Planetary sets: the member that is driven and the one that is held trade places. */
export function otherMembers(solved: Solved, shaft: number): Proposal[] {
  const { drive, index } = solved;
  return gearSets(solved).flatMap((set) => {
    const members = [set.carrier, ...set.centrals];
    const ports = members.flatMap((member) => drive.ports[index.portOfShaft[member] ?? -1] ?? []);
    const driven = ports.filter(({ role, shaft: id }) => role === "input" && index.shafts.get(id) !== shaft);
    const held = ports.filter(({ role }) => role === "held");
    return driven.flatMap((input) =>
      held.map(
        (still): Proposal => ({
          means: "member",
          title: `Hold ${nameOf(solved, input)} and drive ${nameOf(solved, still)}`,
          edit: traded(input.shaft, still.shaft),
          how: `${nameOf(solved, still)}, which is held, and ${nameOf(solved, input)}, which is driven, trade roles.`,
        }),
      ),
    );
  });
}

/** Size of a speed over another; null where one of them is 0 or not known. */
export const timesOf = (wanted: Rational, now: Rational | null | undefined): Rational | null => {
  if (!now || now.n === 0n || wanted.n === 0n) return null;
  const [w, n] = [absolute(wanted), absolute(now)];
  return multiply(w, { n: n.d, d: n.n });
};
