/** Parts of a drive as choices of a list: shafts by name, each with its gears after it. */
import type { Solved } from "../../engine/solved";
import { gearName, nameText, shaftName } from "../../engine/wording";
import type { Part, PartKind } from "../../store/view";
import type { Choice } from "../fields/choice-field";

/** A list longer than this is none that anybody would look through: parts are then picked on the bench or in the parts list. */
const MOST_CHOICES = 400;

export const choiceValue = (part: Pick<Part, "kind" | "id"> | null): string => (part ? `${part.kind} ${part.id}` : "");

const KINDS: readonly PartKind[] = ["shaft", "gear", "mesh"];

/** The part that a value of `choiceValue` stands for; null for the empty one. */
export function partOfChoice(value: string): Part | null {
  const kind = KINDS.find((one) => value.startsWith(`${one} `));
  return kind ? { kind, id: value.slice(kind.length + 1) } : null;
}

export function partWords(solved: Solved, { kind, id }: Part): string {
  const { drive, index } = solved;
  if (kind === "shaft") {
    const shaft = index.shafts.get(id);
    return shaft === undefined ? nameText(id) : `Shaft ${shaftName(drive, shaft)}`;
  }
  if (kind === "mesh") {
    const pair = drive.meshes[index.meshes.get(id) ?? -1]?.gears ?? [];
    return `Mesh ${nameText(id)} (${pair.map(nameText).join(" with ")})`;
  }
  const gear = index.gears.get(id) ?? -1;
  const data = drive.gears[gear];
  return data ? `Gear ${gearName(drive, data, index.shaftOfGear[gear] ?? 0)}` : nameText(id);
}

/** Shafts and gears (and meshes), and whatever is chosen already, however long the list. */
export function partChoices(solved: Solved, chosen: Part | null, withMeshes: boolean): Choice<string>[] {
  const { drive, index } = solved;
  const parts: Part[] = [];
  drive.shafts.forEach(({ id }, shaft) => {
    if (parts.length >= MOST_CHOICES) return;
    parts.push({ kind: "shaft", id });
    for (const gear of index.gearsOfShaft[shaft] ?? []) parts.push({ kind: "gear", id: drive.gears[gear]?.id ?? "" });
  });
  if (withMeshes) for (const { id } of drive.meshes.slice(0, MOST_CHOICES)) parts.push({ kind: "mesh", id });
  const values = new Set(parts.map(choiceValue));
  if (chosen && !values.has(choiceValue(chosen))) parts.push(chosen);
  return parts.map((part) => ({ value: choiceValue(part), words: partWords(solved, part) }));
}
