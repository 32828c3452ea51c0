/** What a demonstration puts on the bench: it stands there in the place of the drive, turns at its own speeds, and goes again. */
import { act, render, screen } from "@testing-library/react";
import { Vector3 } from "three";
import { afterEach, beforeEach, expect, it } from "vitest";
import { Picture } from "../../src/bench/picture";
import { Scene } from "../../src/bench/scene";
import { InPicture } from "../../src/bench/scene-objects";
import { shownDrive } from "../../src/bench/shown-drive";
import { Views } from "../../src/bench/views";
import { drivenFrom } from "../../src/engine/demos/either";
import { type DemoPair, demoPair, leanedPair } from "../../src/engine/demos/pair";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { solve } from "../../src/engine/solve";
import { now, setPlaying } from "../../src/store/clock";
import { setDemo } from "../../src/store/demo";
import { documentStore, openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";
import MIXER from "../support/mixer.drive.json";

let picture: Picture;
let pair: DemoPair;

beforeEach(() => {
  picture = new Picture({ setSize: () => {}, setPixelRatio: () => {}, render: () => {}, dispose: () => {} });
  setPlaying(false);
  setView({ ghost: null, selection: null, hover: null, drawing: "full" });
  const { drive } = readDrive(MIXER);
  if (!drive) throw new Error("no drive");
  act(() => openDrive(drive));
  const found = demoPair(documentStore.getState().solved, "m2");
  if (!found) throw new Error("no pair");
  pair = found;
  render(
    <InPicture picture={picture}>
      <Scene />
    </InPicture>,
  );
  draw();
});
afterEach(() => {
  act(() => setDemo({ shown: null }));
  picture.dispose();
});

function draw(): void {
  picture.draw();
  picture.scene.updateMatrixWorld(true);
}
const put = (drive: Drive | null): void => {
  if (!drive) throw new Error("not built");
  act(() => setDemo({ mesh: "m2", kind: "sweep", shown: { solved: solve(drive), words: "" } }));
  draw();
};
const there = (name: string): boolean => picture.scene.getObjectByName(name) !== undefined;
/** World direction of a shaft's own axis. */
function axisOf(name: string): Vector3 {
  const object = picture.scene.getObjectByName(name);
  if (!object) throw new Error(`${name} is not in the scene`);
  return new Vector3(0, 0, 1).transformDirection(object.matrixWorld);
}

it("the pair alone stands there at its angle, with its arc, and the drive comes back", () => {
  expect(there("shaft A")).toBe(true);
  put(leanedPair(pair, 120));
  expect(there("shaft A")).toBe(false);
  expect(there("lean arc")).toBe(true);
  // Outward axes at 120 degrees; that of the first gear is its shaft's axis reversed.
  expect((axisOf("shaft B").angleTo(axisOf("shaft C")) * 180) / Math.PI).toBeCloseTo(60, 6);
  act(() => setDemo({ shown: null }));
  draw();
  expect(there("shaft A")).toBe(true);
  expect(there("lean arc")).toBe(false);
});

it("turns by the clock at its own speeds", () => {
  put(drivenFrom(pair, 1, 60));
  const { turning, layout } = shownDrive();
  const shaft = layout.solved.index.shafts.get("B") ?? -1;
  now.time = 0.01;
  turning.update();
  // 60 rev/min of 32 teeth drive 16: 120 rev/min, the way that it turns in the drive.
  expect(turning.angles[shaft]).toBeCloseTo(-2 * Math.PI * 120 * 0.01, 9);
  now.time = 0;
});

it("has no close look: its mesh stands elsewhere", () => {
  render(<Views />);
  expect(screen.getByRole("button", { name: "Close look" })).toBeInTheDocument();
  put(leanedPair(pair, 30));
  expect(screen.queryByRole("button", { name: "Close look" })).toBeNull();
});
