/** Which edits give away what a question hides: held against what a solution of the edited drive may show. */
import { describe, expect, it } from "vitest";
import { duplicateStage } from "../../../src/engine/drive/commands/duplicate";
import { type Edit, inTurn, isRefused } from "../../../src/engine/drive/commands/edit";
import { setGear } from "../../../src/engine/drive/commands/gear";
import { driveFrom, setPort } from "../../../src/engine/drive/commands/port";
import { endQuestion, setHidden } from "../../../src/engine/drive/commands/question";
import { removeMesh, removeShaft } from "../../../src/engine/drive/commands/remove";
import { rename } from "../../../src/engine/drive/commands/shaft";
import { readDrive } from "../../../src/engine/drive/parse";
import { readQuestion } from "../../../src/engine/drive/question";
import type { Drive } from "../../../src/engine/drive/types";
import { whyTelling } from "../../../src/engine/question/telling";
import { veiled } from "../../../src/engine/question/veil";
import { solve } from "../../../src/engine/solve";
import mixer from "../../support/mixer.drive.json";

const made = (drive: Drive, edit: Edit): Drive => {
  const result = edit(drive);
  if (isRefused(result)) throw new Error(result.refused);
  return result;
};
const plain = readDrive(mixer).drive as Drive;
const asking = made(plain, inTurn(setHidden("C", "direction", true), setHidden("C", "ratio", true)));

const telling: readonly (readonly [string, Edit])[] = [
  ["driving from the asked shaft", driveFrom("C")],
  ["holding it", setPort("C", { role: "held" })],
  ["a copy of it", duplicateStage("C")],
];
const harmless: readonly (readonly [string, Edit])[] = [
  ["driving from another shaft", driveFrom("B")],
  ["another load", setPort("C", { role: "output", torque: 7 })],
  ["other teeth", setGear("a1", { teeth: 25 })],
  ["another name", rename("C", "Stirrer")],
  ["removing the asked shaft", removeShaft("C")],
  ["removing its mesh", removeMesh("m2")],
  ["asking for more", setHidden("B", "speed", true)],
  ["asking for less", setHidden("C", "ratio", false)],
  ["taking the question away", endQuestion],
];

describe("while a question stands open", () => {
  it.each(telling)("%s gives it away", (_, edit) => {
    expect(whyTelling(asking, made(asking, edit))).toMatch(/: reveal it first\.$/);
  });

  it.each(harmless)("%s does not", (_, edit) => {
    expect(whyTelling(asking, made(asking, edit))).toBeNull();
  });

  it("an asked torque is given by a load that is typed there", () => {
    const unloaded = made(plain, inTurn(setPort("C", { role: "output" }), setHidden("C", "torque", true)));
    expect(whyTelling(unloaded, made(unloaded, setPort("C", { role: "output", torque: 7 })))).toBe(
      "This would give away what the question asks of Mixer: reveal it first.",
    );
    expect(whyTelling(unloaded, made(unloaded, setPort("C", { role: "output", power: 7 })))).toBeNull();
  });

  it("a question that is asked in the place of the drive's own is kept in the same way", () => {
    const asked = readQuestion([{ shaft: "B", figures: ["speed"] }]);
    expect(whyTelling(plain, made(plain, driveFrom("B")), asked)).toMatch(/Cross shaft: reveal it first\.$/);
    expect(whyTelling(asking, made(asking, driveFrom("C")), asked)).toBeNull();
  });

  it("what is refused would have shown the ratio", () => {
    for (const [, edit] of telling.filter(([name]) => name !== "holding it")) {
      const shown = veiled(solve(made(asking, edit)));
      const speeds = shown.motion.speed.filter((speed) => speed !== null).map(Math.abs);
      const least = Math.min(...speeds);
      // 5 turns of the motor give 1 of the mixer: by hand, 20/50 · 16/32.
      expect(speeds.some((speed) => Math.abs(speed / least - 5) < 1e-9)).toBe(true);
    }
  });
});
