/** Edits of ports: what drives, holds or loads a shaft, and which shaft is driven. */
import { makePort, type PortFields, USUAL_SPEED } from "../defaults";
import { digitsOf, type Edit, missing, portFault, portOf, replaced, shaftOf } from "./edit";

/** What stands at a shaft's port; keys that are undefined are left out. */
export type NewPort = Omit<PortFields, "shaft">;

/** Puts a port on a shaft, in the place of the one it has; null takes it away. */
export const setPort =
  (shaft: string, port: NewPort | null): Edit =>
  (drive) => {
    if (!shaftOf(drive, shaft)) return missing("shaft", shaft);
    const old = portOf(drive, shaft);
    if (port === null) return old ? { ...drive, ports: drive.ports.filter((other) => other !== old) } : drive;
    const next = makePort({ ...port, shaft, speedDigits: digitsOf(port.speedDigits, port.speed) });
    return portFault(next) ?? { ...drive, ports: old ? replaced(drive.ports, old, next) : [...drive.ports, next] };
  };

/**
 * "Driven now by": the first input, with its speed and size, moves to this shaft; a port that stood there goes to the
 * shaft that was driven, so that driver and driven trade roles. Without any input the shaft gets one of 60 rev/min.
 */
export const driveFrom =
  (shaft: string): Edit =>
  (drive) => {
    if (!shaftOf(drive, shaft)) return missing("shaft", shaft);
    const old = portOf(drive, shaft);
    if (old?.role === "input") return drive;
    const input = drive.ports.find(({ role }) => role === "input");
    if (!input) return setPort(shaft, { role: "input", speed: USUAL_SPEED })(drive);
    const ports = drive.ports.map((port) => {
      if (port === input) return makePort({ ...port, shaft });
      return port === old ? makePort({ ...port, shaft: input.shaft }) : port;
    });
    return { ...drive, ports };
  };
