/** Meshes in form 1. A number that is that of the mesh before is not written again. */
import type { Mesh } from "../../../engine/drive/types";
import type { ByteReader, ByteWriter } from "../bytes";
import { successor } from "./names";
import { type Part, readJson, restOf, writeJson } from "./rest";
import { idAt, indexIn } from "./shafts";

/** Bits of a mesh's head; its id is `successor` of the one before (`m1` at first) unless `ID` is set. */
const ID = 1;
const REST = 1 << 9;
const BEFORE_FIRST = "m0";

interface SizeRule {
  readonly key: "azimuth" | "efficiency" | "shaftAngle" | "normalForce" | "friction";
  /** 0 where the mesh always has it. */
  readonly present: number;
  readonly differs: number;
  readonly usual: number;
  readonly asBefore: boolean;
}
const SIZES: readonly SizeRule[] = [
  { key: "azimuth", present: 0, differs: 1 << 1, usual: 0, asBefore: false },
  { key: "efficiency", present: 0, differs: 1 << 2, usual: 1, asBefore: true },
  { key: "shaftAngle", present: 1 << 3, differs: 1 << 4, usual: 90, asBefore: true },
  { key: "normalForce", present: 1 << 5, differs: 1 << 7, usual: 0, asBefore: true },
  { key: "friction", present: 1 << 6, differs: 1 << 8, usual: 0, asBefore: true },
];

const KNOWN = new Set(["id", "gears", ...SIZES.map(({ key }) => key)]);

const firstSizes = (): Map<string, number> => new Map(SIZES.map(({ key, usual }) => [key, usual]));

export function writeMeshes(to: ByteWriter, meshes: readonly Mesh[], gearIndex: ReadonlyMap<string, number>): void {
  const before = firstSizes();
  let idBefore = BEFORE_FIRST;
  let firstBefore = 0;
  for (const mesh of meshes) {
    const isNext = mesh.id === successor(idBefore);
    const rest = restOf(mesh, KNOWN);
    let head = (isNext ? 0 : ID) + (rest ? REST : 0);
    const written: number[] = [];
    for (const { key, present, differs, usual, asBefore } of SIZES) {
      const value = mesh[key];
      if (value === undefined) continue;
      head += present;
      if (Object.is(value, asBefore ? before.get(key) : usual)) continue;
      head += differs;
      written.push(value);
      before.set(key, value);
    }
    to.whole(head);
    if (!isNext) to.text(mesh.id);
    const first = indexIn(gearIndex, mesh.gears[0]);
    to.step(first - firstBefore);
    to.step(indexIn(gearIndex, mesh.gears[1]) - first);
    for (const value of written) to.number(value);
    if (rest) writeJson(to, rest);
    idBefore = mesh.id;
    firstBefore = first;
  }
}

export function readMeshes(from: ByteReader, count: number, gears: readonly Part[]): Part[] {
  const meshes: Part[] = [];
  const before = firstSizes();
  let idBefore = BEFORE_FIRST;
  let firstBefore = 0;
  for (let i = 0; i < count; i++) {
    const head = from.whole();
    const id = head & ID ? from.text() : successor(idBefore);
    firstBefore += from.step();
    const second = firstBefore + from.step();
    const mesh: Part = { id, gears: [idAt(gears, firstBefore), idAt(gears, second)] };
    for (const { key, present, differs, usual, asBefore } of SIZES) {
      if (present !== 0 && (head & present) === 0) continue;
      const value = head & differs ? from.number() : asBefore ? before.get(key) : usual;
      if (head & differs) before.set(key, value as number);
      mesh[key] = value;
    }
    meshes.push(head & REST ? Object.assign(mesh, readJson(from)) : mesh);
    idBefore = id;
  }
  return meshes;
}
