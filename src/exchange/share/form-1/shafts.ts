/** Shafts in form 1. */
import type { Shaft, Vec3 } from "../../../engine/drive/types";
import { type ByteReader, type ByteWriter, Damaged } from "../bytes";
import { successor } from "./names";
import { type Part, readJson, restOf, writeJson } from "./rest";

const KNOWN = new Set(["id", "name", "pose", "coaxial", "frame"]);
const ALL_BUT_POSE = new Set([...KNOWN].filter((key) => key !== "pose"));
const KNOWN_OF_POSE = new Set(["origin", "axis", "ref"]);

/** Bits of a shaft's head; its id is `successor` of the one before unless `ID` is set. */
const ID = 1;
/** Two bits: no name, a text, `successor` of the name before, the id. */
const NAME = 2;
const NAMES = { none: 0, text: 1, next: 2, id: 3 } as const;
/** Two bits: placed by a mesh, by a pose, on the line of another shaft. */
const PLACE = 8;
const PLACES = { mesh: 0, pose: 1, coaxial: 2 } as const;
const FRAME = 32;
const REST = 64;

/** Vectors that take one byte, by number; the one after the last is followed by three numbers. */
const USUAL: readonly Vec3[] = [
  [1, 0, 0],
  [0, 1, 0],
  [0, 0, 1],
  [-1, 0, 0],
  [0, -1, 0],
  [0, 0, -1],
  [0, 0, 0],
];

function writeVector(to: ByteWriter, vector: Vec3): void {
  const index = USUAL.findIndex((usual) => usual.every((value, i) => Object.is(value, vector[i])));
  to.byte(index < 0 ? USUAL.length : index);
  if (index < 0) for (const value of vector) to.number(value);
}

function readVector(from: ByteReader): Vec3 {
  const index = from.byte();
  if (index > USUAL.length) throw new Damaged("no vector");
  return USUAL[index] ?? [from.number(), from.number(), from.number()];
}

export function writeShafts(to: ByteWriter, shafts: readonly Shaft[], indexOf: ReadonlyMap<string, number>): void {
  let before: Pick<Shaft, "id" | "name"> = { id: "", name: "" };
  shafts.forEach((shaft, i) => {
    const { id, name, pose, coaxial, frame } = shaft;
    // A pose with keys of its own goes with the rest, whole.
    const isPlainPose = pose !== undefined && restOf(pose, KNOWN_OF_POSE) === null;
    const rest = restOf(shaft, isPlainPose ? KNOWN : ALL_BUT_POSE);
    const isNext = successor(before.id) === id;
    const named =
      name === "" ? NAMES.none : name === successor(before.name) ? NAMES.next : name === id ? NAMES.id : NAMES.text;
    const place = isPlainPose ? PLACES.pose : coaxial !== undefined ? PLACES.coaxial : PLACES.mesh;
    to.whole((isNext ? 0 : ID) + named * NAME + place * PLACE + (frame === undefined ? 0 : FRAME) + (rest ? REST : 0));
    if (!isNext) to.text(id);
    if (named === NAMES.text) to.text(name);
    if (isPlainPose) for (const vector of [pose.origin, pose.axis, pose.ref]) writeVector(to, vector);
    if (place === PLACES.coaxial) to.step(i - indexIn(indexOf, coaxial));
    if (frame !== undefined) to.step(i - indexIn(indexOf, frame));
    if (rest) writeJson(to, rest);
    before = shaft;
  });
}

/** The ids that these shafts name are looked up afterwards, since they may name a later one. */
export function readShafts(from: ByteReader, count: number): Part[] {
  const shafts: Part[] = [];
  const links: { readonly shaft: Part; readonly key: "coaxial" | "frame"; readonly index: number }[] = [];
  let before = { id: "", name: "" };
  for (let i = 0; i < count; i++) {
    const head = from.whole();
    const id = head & ID ? from.text() : successor(before.id);
    const named = (head / NAME) & 3;
    const name =
      named === NAMES.text ? from.text() : named === NAMES.next ? successor(before.name) : named === NAMES.id ? id : "";
    const shaft: Part = { id, name };
    const place = (head / PLACE) & 3;
    if (place === PLACES.pose) shaft.pose = { origin: readVector(from), axis: readVector(from), ref: readVector(from) };
    if (place === PLACES.coaxial) links.push({ shaft, key: "coaxial", index: i - from.step() });
    if (head & FRAME) links.push({ shaft, key: "frame", index: i - from.step() });
    shafts.push(head & REST ? Object.assign(shaft, readJson(from)) : shaft);
    before = { id, name };
  }
  for (const { shaft, key, index } of links) shaft[key] = idAt(shafts, index);
  return shafts;
}

export function indexIn(indexOf: ReadonlyMap<string, number>, id: string | undefined): number {
  const index = indexOf.get(id ?? "");
  if (index === undefined) throw new Damaged(`nothing is called ${id}`);
  return index;
}

export function idAt(parts: readonly Part[], index: number): string {
  const id = parts[index]?.id;
  if (typeof id !== "string") throw new Damaged("a part is named that is not there");
  return id;
}
