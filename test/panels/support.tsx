/** What the panel tests share: a drive on the bench, and a page checked for accessibility. */
import { readFileSync } from "node:fs";
import { act } from "@testing-library/react";
import axe from "axe-core";
import { readDrive } from "../../src/engine/drive/parse";
import type { Drive } from "../../src/engine/drive/types";
import { documentStore, openDrive } from "../../src/store/document";
import { setView } from "../../src/store/view";

/** The right-angle mixer of the format's own description: 20 drives 50, a bevel pair 16 drives 32 at 90 degrees. */
export { default as MIXER } from "../support/mixer.drive.json";

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
