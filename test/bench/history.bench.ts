/** Undo that survives a reload, on a drive of 40 gears with 200 steps: what keeping costs after each edit, and reading when the page starts. */
import { setGear } from "../../src/engine/drive/commands/gear";
import { hasTeeth } from "../../src/engine/drive/types";
import { readHistory, writeHistory } from "../../src/exchange/history-text";
import { currentHistory, documentStore, openDrive, perform } from "../../src/store/document";
import { randomTree } from "../support/random-drives";
import { measure, report } from "./measure";

openDrive(randomTree(3, 21, 8));
let edits = 0;
const edit = (): void => {
  const { gears } = documentStore.getState().drive;
  const gear = gears[edits % gears.length];
  edits += 1;
  if (gear && hasTeeth(gear)) perform(setGear(gear.id, { face: 5 + (edits % 90) / 10 }), `face of ${gear.id}`);
};
for (let i = 0; i < 300; i++) edit();

const check = (text: string): void => {
  const history = readHistory(text);
  if (history?.past.length !== 200 || history.present.drive.gears.length !== 40)
    throw new Error("It is not the history.");
};

const writing = measure(
  () => {
    // The part that has changed is written, the others are known: as after each edit of a person.
    edit();
    return writeHistory(currentHistory());
  },
  check,
  { rounds: 51, warmUp: 20 },
);
report({
  name: "keep 200 steps of 40 gears after an edit, the edit and its solution included",
  value: writing,
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 8",
});

const text = writeHistory(currentHistory());
report({
  name: "200 steps of 40 gears as a text",
  value: text.length / 1000,
  unit: "kB",
  against: null,
  ratio: null,
  target: "<= 100",
});

const reading = measure(
  () => readHistory(text),
  (history) => {
    if (history?.past.length !== 200) throw new Error("It is not the history.");
  },
  { rounds: 31 },
);
report({
  name: "read and check 200 steps of 40 gears",
  value: reading,
  unit: "ms",
  against: null,
  ratio: null,
  target: "<= 50",
});
