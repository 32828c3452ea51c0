/** A glide of the eye comes to rest where it was sent, whatever becomes of the picture's size on the way. */
import { beforeEach, expect, it, vi } from "vitest";
import { currentOrbit, glideOn, setOrbit, setScreenSize } from "../../src/bench/camera";
import { eyeFrame, FRONT } from "../../src/bench/orbit";
import { length } from "../../src/engine/vector";
import { look } from "../../src/store/view";

const TOWARDS = [0.35, 1, 0.3] as const;

beforeEach(() => {
  vi.stubGlobal("matchMedia", () => ({ matches: false }));
  setScreenSize(900, 600);
  setOrbit({ target: [0, 0, 0], ...FRONT, distance: 500 }, false);
});

it("goes on to its side of the drive when a panel opens beside the bench", () => {
  const begun = performance.now();
  look({ name: "towards", towards: TOWARDS, near: null });
  glideOn(begun + 200);
  setScreenSize(600, 560);
  const wide = currentOrbit().distance;
  glideOn(performance.now() + 10_000);
  const { back } = eyeFrame(currentOrbit());
  for (const [i, part] of TOWARDS.entries()) expect(back[i]).toBeCloseTo(part / length(TOWARDS), 9);
  // And it is as far as the new size asks: the same as where it is fitted at rest.
  const rested = currentOrbit();
  setScreenSize(900, 600);
  setScreenSize(600, 560);
  expect(currentOrbit().distance).toBeCloseTo(rested.distance, 9);
  expect(rested.distance).not.toBeCloseTo(wide, 3);
});
