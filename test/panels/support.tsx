/** What the panel tests share: a drive on the bench, and a page checked for accessibility. */
import { readFileSync } from "node:fs";
import { act } from "@testing-library/react";
import axe from "axe-core";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { documentStore, openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";

/** The right-angle mixer of the format's own description: 20 drives 50, a bevel pair 16 drives 32 at 90 degrees. */
export const MIXER = {
  format: "turnwise.drive",
  version: 1,
  title: "Right-angle mixer",
  shafts: [
    { id: "A", name: "Motor", pose: { origin: [0, 0, 0], axis: [1, 0, 0], ref: [0, 0, 1] } },
    { id: "B", name: "Cross shaft" },
    { id: "C", name: "Mixer" },
  ],
  gears: [
    { id: "a1", shaft: "A", at: 0, kind: "spur", teeth: 20, module: 2, face: 20 },
    { id: "b1", shaft: "B", at: 0, kind: "spur", teeth: 50, module: 2, face: 20 },
    { id: "b2", shaft: "B", at: 60, kind: "bevel", teeth: 16, module: 3, face: 14, apex: "+" },
    { id: "c1", shaft: "C", at: 0, kind: "bevel", teeth: 32, module: 3, face: 14, apex: "-" },
  ],
  meshes: [
    { id: "m1", gears: ["a1", "b1"], azimuth: 0 },
    { id: "m2", gears: ["b2", "c1"], shaftAngle: 90, azimuth: 0, efficiency: 0.97 },
  ],
  ports: [
    { shaft: "A", role: "input", speed: 1450 },
    { shaft: "C", role: "output", torque: 40 },
  ],
} as const;

export const sample = (name: string): unknown => JSON.parse(readFileSync(`public/samples/${name}.drive.json`, "utf8"));

/** Puts a drive on the bench, nothing selected. */
export function open(file: unknown): void {
  const { drive, faults } = readDrive(file);
  if (!drive) throw new Error(JSON.stringify(faults));
  act(() => {
    openDrive(drive);
    setView({ selection: null, hover: null, announcement: "", adding: null, panels: { parts: true, side: true } });
  });
}

export const drive = (): Drive => documentStore.getState().drive;

/** What axe-core finds wrong with a page, as words; colours need a real browser and are checked there. */
export async function violations(page: Element): Promise<string[]> {
  // Axe tries a canvas for its colours; jsdom has none and would say so at length.
  HTMLCanvasElement.prototype.getContext = () => null;
  const { violations } = await axe.run(page, {
    rules: { "color-contrast": { enabled: false }, region: { enabled: false } },
  });
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map((node) => node.html).join(" ")}`);
}
