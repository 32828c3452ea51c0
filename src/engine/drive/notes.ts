/**
 * Notes pinned to places of a drive: the drive's own `x-notes`, a list of `{ text, at }`, where `at` is `{ gear: id }`, `{ mesh: id }`,
 * `{ shaft: id }` or `{ point: [x, y, z] }` (world, mm). Entries of any other form are somebody else's: they are kept and not read.
 */
import { isRecord, own } from "./schema-parts";
import type { Drive, Vec3 } from "./types";

export type NotePart = "shaft" | "gear" | "mesh";

export type NotePlace =
  | { readonly part: NotePart; readonly id: string }
  /** World, mm. */
  | { readonly part: "point"; readonly point: Vec3 };

export interface PinnedNote {
  /** Its place in `x-notes`, by which it is changed and removed. */
  readonly entry: number;
  /** Counted from 1 over the notes that can be read, as its pin says. */
  readonly number: number;
  readonly text: string;
  readonly at: NotePlace;
}

export const NOTES_KEY = "x-notes";
const PARTS: readonly NotePart[] = ["shaft", "gear", "mesh"];

const isVector = (value: unknown): value is Vec3 =>
  Array.isArray(value) && value.length === 3 && value.every((part) => Number.isFinite(part));

/** The place that an `at` names; null where it is of another form. */
function readPlace(at: unknown): NotePlace | null {
  if (!isRecord(at) || Object.keys(at).length !== 1) return null;
  const point = own(at, "point");
  if (isVector(point)) return { part: "point", point };
  for (const part of PARTS) {
    const id = own(at, part);
    if (typeof id === "string") return { part, id };
  }
  return null;
}

/** `at` as a file holds it. */
export const writePlace = (at: NotePlace): Readonly<Record<string, unknown>> =>
  at.part === "point"
    ? // No file holds −0.
      { point: at.point.map((x) => x + 0) }
    : { [at.part]: at.id };

/** What one entry of `x-notes` says; null where it is of another form. */
export function readNote(entry: unknown): { readonly text: string; readonly at: NotePlace } | null {
  if (!isRecord(entry)) return null;
  const text = own(entry, "text");
  const at = readPlace(own(entry, "at"));
  return typeof text === "string" && at ? { text, at } : null;
}

/** The entries of `x-notes`; none where the drive has none; null where it is no list, and so not ours. */
export function noteEntries(drive: Drive): readonly unknown[] | null {
  const held = drive[NOTES_KEY];
  if (held === undefined) return [];
  return Array.isArray(held) ? held : null;
}

/** The notes of a drive that can be read, in their order. */
export function notesOf(drive: Drive): readonly PinnedNote[] {
  const notes: PinnedNote[] = [];
  for (const [entry, held] of (noteEntries(drive) ?? []).entries()) {
    const note = readNote(held);
    if (note) notes.push({ entry, number: notes.length + 1, ...note });
  }
  return notes;
}

/** Whether what a note is pinned to is in the drive. */
export function hasPlace(drive: Drive, at: NotePlace): boolean {
  if (at.part === "point") return true;
  const list = { shaft: drive.shafts, gear: drive.gears, mesh: drive.meshes }[at.part];
  return (list as readonly { readonly id: string }[]).some(({ id }) => id === at.id);
}
