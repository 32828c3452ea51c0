/**
 * Form 1 of a drive for links: its parts by position in few bytes. What follows from the format or from the part before
 * is left out, ids that a part names are counted, all else is exact. Links hold it for ever, so it never changes: what it
 * can't say in short it says as JSON, and a better form would be form 2, beside it.
 */
import { FORMAT } from "../../../engine/drive/defaults";
import { type Parsed, parseDrive, readDrive } from "../../../engine/drive/parse";
import type { Drive } from "../../../engine/drive/types";
import { writeDrive } from "../../../engine/drive/write";
import { ByteReader, ByteWriter, Damaged, TooLarge } from "../bytes";
import { readGears, writeGears } from "./gears";
import { readMeshes, writeMeshes } from "./meshes";
import { readPorts, writePorts } from "./ports";
import { type Part, readJson, restOf, writeJson } from "./rest";
import { readShafts, writeShafts } from "./shafts";

/** The version of the drive format that form 1 gives back. */
const DRIVE_VERSION = 1;

/** Shafts, gears, meshes and ports that are read, together: some bytes may stand for very many of them. */
const MOST_PARTS = 25_000;
/** Characters of all names and ids of the file, those that parts name included: a long one may be named by very many. */
const MOST_NAMED = 2_000_000;

const KNOWN = new Set(["title", "notes", "shafts", "gears", "meshes", "ports"]);

const indexById = (parts: readonly { readonly id: string }[]): Map<string, number> =>
  new Map(parts.map(({ id }, i) => [id, i]));

/** The bytes of a drive. Throws `Damaged` where a part names one that is not there. */
export function writeForm1(drive: Drive): Uint8Array {
  const to = new ByteWriter();
  const { title, notes, shafts, gears, meshes, ports } = drive;
  const rest = restOf(drive, KNOWN);
  const shaftIndex = indexById(shafts);
  to.byte(rest ? 1 : 0);
  to.text(title);
  to.text(notes);
  for (const list of [shafts, gears, meshes, ports]) to.whole(list.length);
  writeShafts(to, shafts, shaftIndex);
  writeGears(to, gears, shaftIndex);
  writeMeshes(to, meshes, indexById(gears));
  writePorts(to, ports, shaftIndex);
  if (rest) writeJson(to, rest);
  return to.done();
}

/** The drive of such bytes, or what keeps it from being one. Throws where the bytes are none of this form, or too much. */
export function readForm1(bytes: Uint8Array): Parsed {
  const from = new ByteReader(bytes);
  const flags = from.byte();
  if (flags > 1) throw new Damaged("no form 1");
  const file: Part = { format: FORMAT, version: DRIVE_VERSION, title: from.text(), notes: from.text() };
  const counts = [from.whole(), from.whole(), from.whole(), from.whole()] as const;
  if (counts.reduce((sum, count) => sum + count, 0) > MOST_PARTS) throw new TooLarge("too many parts");
  const diameters = new Map<number, string>();
  const speeds = new Map<number, string>();
  const shafts = readShafts(from, counts[0]);
  const gears = readGears(from, counts[1], shafts, diameters);
  const meshes = readMeshes(from, counts[2], gears);
  const ports = readPorts(from, counts[3], shafts, speeds);
  Object.assign(file, { shafts, gears, meshes, ports }, flags === 1 ? readJson(from) : {});
  if (!from.isAtEnd) throw new Damaged("there is more than a drive");
  if ([shafts, gears, meshes, ports].reduce((sum, list) => sum + named(list), 0) > MOST_NAMED) {
    throw new TooLarge("ids or names are too long");
  }
  const parsed = readDrive(file);
  if (!parsed.drive || diameters.size + speeds.size === 0) return parsed;
  return parseDrive(writeDrive(withDigits(parsed.drive, diameters, speeds)));
}

/** Characters of the texts that these parts hold right inside, or in a list. */
const named = (parts: readonly Part[]): number => {
  let sum = 0;
  for (const part of parts) {
    for (const value of Object.values(part).flat()) if (typeof value === "string") sum += value.length;
  }
  return sum;
};

/** A number of JSON, RFC 8259: exact digits become part of a text that is read again. */
const NUMBER = /^-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?$/;

function withDigits(drive: Drive, diameters: Map<number, string>, speeds: Map<number, string>): Drive {
  for (const digits of [...diameters.values(), ...speeds.values()]) {
    if (!NUMBER.test(digits)) throw new Damaged("no digits of a number");
  }
  return {
    ...drive,
    gears: drive.gears.map((gear, i) => {
      const digits = diameters.get(i);
      return digits === undefined || "teeth" in gear ? gear : { ...gear, diameterDigits: digits };
    }),
    ports: drive.ports.map((port, i) => {
      const digits = speeds.get(i);
      return digits === undefined ? port : { ...port, speedDigits: digits };
    }),
  };
}
