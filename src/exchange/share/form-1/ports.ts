/** Ports in form 1. */
import type { Port } from "../../../engine/drive/types";
import { filePort } from "../../../engine/drive/write";
import { type ByteReader, type ByteWriter, Damaged } from "../bytes";
import { type Part, readJson, restOf, writeJson } from "./rest";
import { idAt, indexIn } from "./shafts";

/** By number, the lowest two bits of the head. Never another order. */
const ROLES = ["input", "held", "output"] as const;
/** A port of a role that form 1 does not know: its shaft and then all of it as JSON. */
const WHOLE = 3;
const SPEED = 4;
const TORQUE = 8;
const POWER = 16;
const DIGITS = 32;
const REST = 64;

const SIZES = [
  { key: "speed", bit: SPEED },
  { key: "torque", bit: TORQUE },
  { key: "power", bit: POWER },
] as const;
const KNOWN = new Set(["shaft", "role", "speed", "speedDigits", "torque", "power"]);

export function writePorts(to: ByteWriter, ports: readonly Port[], shaftIndex: ReadonlyMap<string, number>): void {
  let shaftBefore = 0;
  for (const port of ports) {
    const role = ROLES.indexOf(port.role);
    const rest = restOf(port, KNOWN);
    const index = indexIn(shaftIndex, port.shaft);
    let head = role < 0 ? WHOLE : role + (port.speedDigits === undefined ? 0 : DIGITS) + (rest ? REST : 0);
    if (role >= 0) for (const { key, bit } of SIZES) head += port[key] === undefined ? 0 : bit;
    to.whole(head);
    to.step(index - shaftBefore);
    if (role < 0) writeJson(to, filePort(port));
    else {
      for (const { key } of SIZES) {
        const value = port[key];
        if (value !== undefined) to.number(value);
      }
      if (port.speedDigits !== undefined) to.text(port.speedDigits);
      if (rest) writeJson(to, rest);
    }
    shaftBefore = index;
  }
}

/** The ports, and the exact digits of speeds by the port's index. */
export function readPorts(
  from: ByteReader,
  count: number,
  shafts: readonly Part[],
  digits: Map<number, string>,
): Part[] {
  const ports: Part[] = [];
  let shaftBefore = 0;
  for (let i = 0; i < count; i++) {
    const head = from.whole();
    shaftBefore += from.step();
    const shaft = idAt(shafts, shaftBefore);
    const role = head & 3;
    if (role === WHOLE) {
      if (head !== WHOLE) throw new Damaged("no port");
      ports.push(readJson(from));
      continue;
    }
    const port: Part = { shaft, role: ROLES[role] };
    for (const { key, bit } of SIZES) if (head & bit) port[key] = from.number();
    if (head & DIGITS) digits.set(i, from.text());
    ports.push(head & REST ? Object.assign(port, readJson(from)) : port);
  }
  return ports;
}
