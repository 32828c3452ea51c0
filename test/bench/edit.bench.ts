/** A tooth count typed or stepped on a drive of 40 gears: from the gesture's edit to the solved drive in the store. */
import { hasTeeth } from "../../src/engine/drive/types";
import { documentStore, openDrive, perform } from "../../src/store/document";
import { randomTree } from "../support/random-drives";
import { measure, report } from "./measure";

// 21 shafts have 20 meshes, and so 40 gears.
openDrive(
  randomTree(3, 21, 8, {
    ports: [
      { shaft: "s0", role: "input", speed: 100 },
      { shaft: "s20", role: "output", torque: 5 },
    ],
  }),
);
const edited = "g1a";
let teeth = 20;

const time = measure(
  () => {
    teeth = teeth === 60 ? 20 : teeth + 1;
    perform(
      (drive) => ({
        ...drive,
        gears: drive.gears.map((gear) => (gear.id === edited && hasTeeth(gear) ? { ...gear, teeth } : gear)),
      }),
      `teeth of ${edited}`,
    );
    return documentStore.getState();
  },
  ({ drive, solved }) => {
    const gear = drive.gears.find(({ id }) => id === edited);
    if (drive.gears.length !== 40 || solved.drive !== drive || !gear || !hasTeeth(gear) || gear.teeth !== teeth) {
      throw new Error("The edit did not arrive.");
    }
  },
  { rounds: 101, warmUp: 50 },
);
report({
  name: "change a tooth count on 40 gears, edit to solved drive",
  value: time,
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 2",
});
