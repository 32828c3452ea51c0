/**
 * The README says what is so: its table of finding codes is the one in the source, its counts and links are right.
 * `UPDATE_README=1 npx vitest run test/readme.test.ts` writes the table anew.
 */
import { existsSync, readFileSync, writeFileSync } from "node:fs";
import { expect, it } from "vitest";
import { findingCodeTable } from "../src/engine/explain/finding-codes";
import { SAMPLES } from "../src/exchange/sample-list";

const BEGIN = "<!-- finding codes: begin -->\n";
const END = "<!-- finding codes: end -->";
const readme = (): string => readFileSync("README.md", "utf8");

it("lists every finding code with its cause and cure", () => {
  const text = readme();
  const from = text.indexOf(BEGIN) + BEGIN.length;
  const to = text.indexOf(END);
  expect(from).toBeGreaterThan(BEGIN.length);
  expect(to).toBeGreaterThanOrEqual(from);
  if (process.env.UPDATE_README === "1") {
    writeFileSync("README.md", `${text.slice(0, from)}${findingCodeTable()}${text.slice(to)}`);
  }
  const now = readme();
  expect(now.slice(now.indexOf(BEGIN) + BEGIN.length, now.indexOf(END))).toBe(findingCodeTable());
});

it("counts the samples right", () => {
  const words = ["ten", "eleven", "twelve", "thirteen"];
  expect(readme()).toContain(`holds ${words[SAMPLES.length - 10]} drives`);
});

it("links to files that are there", () => {
  const links = [...readme().matchAll(/\]\((?!https?:)([^)#]+)\)/g)].map((match) => match[1] as string);
  expect(links.length).toBeGreaterThan(3);
  expect(links.filter((link) => !existsSync(link))).toEqual([]);
});
