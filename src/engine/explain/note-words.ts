/** What a note is pinned to, in words. */
import { hasPlace, type NotePlace } from "../drive/notes";
import type { Solved } from "../solved";
import { gearName, nameText, quantities, shaftName } from "../wording";

/** "on Motor", "on b1 (50 teeth, on Cross shaft)", "at mesh m1 (a1 with b1)", "at the point 0, −20, 100 mm". */
export function notePlaceWords(solved: Solved, at: NotePlace): string {
  const { drive, index } = solved;
  if (at.part === "point") return `at the point ${quantities(at.point, ", ", "mm")}`;
  if (!hasPlace(drive, at)) return `on ${at.part} ${nameText(at.id)}, which is not in the drive any more`;
  if (at.part === "shaft") return `on ${shaftName(drive, index.shafts.get(at.id) ?? 0)}`;
  if (at.part === "mesh") {
    const pair = drive.meshes[index.meshes.get(at.id) ?? -1]?.gears ?? [];
    return `at mesh ${nameText(at.id)} (${pair.map(nameText).join(" with ")})`;
  }
  const gear = index.gears.get(at.id) ?? -1;
  const data = drive.gears[gear];
  return data ? `on ${gearName(drive, data, index.shaftOfGear[gear] ?? 0)}` : "";
}
