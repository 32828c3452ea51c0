/**
 * The canonical text of a drive: known keys in the schema's order, what a file may leave out left out, `x-` keys after
 * them in their own order, exact digits as they were read. The same drive always gives the same bytes.
 */
import { FORMAT, isExtra, VERSION } from "./defaults";
import { DRIVE_FILE, GEAR, MESH, PORT, SHAFT } from "./schema";
import { own } from "./schema-parts";
import { type Drive, GEAR_KINDS, type Gear, type Mesh, type Port, type PortRole, type Shaft } from "./types";

/** A value as JSON on one line, with a blank after each comma; -0 stays what it is. */
export function inline(value: unknown): string {
  if (typeof value === "number") return Object.is(value, -0) ? "-0" : String(value);
  if (typeof value !== "object" || value === null) return JSON.stringify(value);
  if (Array.isArray(value)) return value.length === 0 ? "[]" : `[${value.map(inline).join(", ")}]`;
  const members: string[] = [];
  for (const [key, item] of Object.entries(value)) {
    if (item !== undefined) members.push(`${JSON.stringify(key)}: ${inline(item)}`);
  }
  return members.length === 0 ? "{}" : `{ ${members.join(", ")} }`;
}

type Entries = Readonly<Record<string, { readonly default?: unknown }>>;

/** Visits what a file holds of a part: keys in the schema's order without those at their default, then the `x-` ones. */
function visit(part: object, entries: Entries, see: (key: string, value: unknown) => void): void {
  const from = part as Record<string, unknown>;
  for (const key in entries) {
    const value = from[key];
    if (value !== undefined && value !== entries[key]?.default) see(key, value);
  }
  for (const key in from) if (isExtra(key)) see(key, from[key]);
}

function filed(part: object, entries: Entries): object {
  const to: Record<string, unknown> = {};
  visit(part, entries, (key, value) => {
    to[key] = value;
  });
  return to;
}

/** The part on one line; the number `exact` with digits of its own, where there are any. */
function line(part: object, entries: Entries, exact?: string, digits?: string): string {
  let text = "{";
  visit(part, entries, (key, value) => {
    const member = key === exact && digits !== undefined ? digits : inline(value);
    text += `${text === "{" ? " " : ", "}${JSON.stringify(key)}: ${member}`;
  });
  return `${text} }`;
}

const choose = (options: readonly { readonly entries: object }[], key: string, value: string): Entries => {
  const found = options.find((option) =>
    (own(option.entries as Record<string, unknown>, key) as { options: string[] }).options.includes(value),
  );
  return (found?.entries ?? {}) as Entries;
};

const shaftEntries = SHAFT.entries as Entries;
const meshEntries = MESH.entries as Entries;
const gearEntries = new Map(GEAR_KINDS.map((kind) => [kind, choose(GEAR.options, "kind", kind)]));
const portEntries = new Map(
  (["input", "held", "output"] satisfies PortRole[]).map((role) => [role, choose(PORT.options, "role", role)]),
);

/** A part as plain data in canonical order, defaults left out; exact digits are lost. */
export const fileShaft = (shaft: Shaft): object => filed(shaft, shaftEntries);
export const fileGear = (gear: Gear): object => filed(gear, gearEntries.get(gear.kind) ?? {});
export const fileMesh = (mesh: Mesh): object => filed(mesh, meshEntries);
export const filePort = (port: Port): object => filed(port, portEntries.get(port.role) ?? {});

const gearLine = (gear: Gear): string => {
  const digits = "diameterDigits" in gear ? gear.diameterDigits : undefined;
  return line(gear, gearEntries.get(gear.kind) ?? {}, "diameter", digits);
};
const portLine = (port: Port): string => line(port, portEntries.get(port.role) ?? {}, "speed", port.speedDigits);

const block = (lines: readonly string[]): string =>
  lines.length === 0 ? "[]" : `[\n    ${lines.join(",\n    ")}\n  ]`;

/** The text of a `.drive.json` file, ending with a line feed. Never throws for a drive that the parser could give. */
export function writeDrive(drive: Drive): string {
  const members: string[] = [
    `"format": ${JSON.stringify(FORMAT)}`,
    `"version": ${VERSION}`,
    `"title": ${JSON.stringify(drive.title)}`,
  ];
  const defaults = DRIVE_FILE.entries as Entries;
  if (drive.notes !== defaults.notes?.default) members.push(`"notes": ${JSON.stringify(drive.notes)}`);
  members.push(`"shafts": ${block(drive.shafts.map((shaft) => line(shaft, shaftEntries)))}`);
  members.push(`"gears": ${block(drive.gears.map(gearLine))}`);
  if (drive.meshes.length > 0) members.push(`"meshes": ${block(drive.meshes.map((mesh) => line(mesh, meshEntries)))}`);
  if (drive.ports.length > 0) members.push(`"ports": ${block(drive.ports.map(portLine))}`);
  for (const key in drive) {
    if (isExtra(key))
      members.push(`${JSON.stringify(key)}: ${inline(own(drive as unknown as Record<string, unknown>, key))}`);
  }
  return `{\n  ${members.join(",\n  ")}\n}\n`;
}
