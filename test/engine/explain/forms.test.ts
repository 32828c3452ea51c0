/** One formula, four forms: LaTeX is read by a library of its own (temml), MathML and words are held against plain text. */
import temml from "temml";
import { describe, expect, test } from "vitest";
import { formulaText } from "../../../src/engine/explain/formula";
import { formulaLatex, latexWords, quantityLatex } from "../../../src/engine/explain/formula-latex";
import { mathMarkup } from "../../../src/engine/explain/formula-math";
import { formulaSpoken } from "../../../src/engine/explain/formula-spoken";
import { copiedLine, copiedSteps, lineLatex, linePieces, lineSpoken } from "../../../src/engine/explain/working-forms";
import { meshWorkings, workingsOf } from "../../../src/engine/explain/workings";
import { solve } from "../../../src/engine/solve";
import { FILE_UNITS, type UnitChoice } from "../../../src/engine/units/choice";
import { ALL_PAIRS, planetary, randomTree } from "../../support/random-drives";
import { mixer } from "./build";

const COMMA: UnitChoice = {
  ...FILE_UNITS,
  decimalSign: ",",
  length: "in",
  power: "hp",
  torque: "lbf·ft",
  tooth: "pitch",
};

/** Names, digits and units of a piece of MathML, brackets and spacing left out: what both ways of setting a line share. */
const bare = (markup: string): string =>
  markup
    .replace(/<[^>]*>/g, "")
    .replace(/&amp;/g, "&")
    .replace(/[\s\u2009\u202f\u2061\u2062\u00a0()]/g, "")
    .replaceAll("⋅", "·")
    .replaceAll("∘", "°")
    .replaceAll("-", "−");

const steps = () => {
  const solved = solve(
    randomTree(7, 5, 3, {
      pairs: ALL_PAIRS,
      losses: true,
      ports: [
        { shaft: "s0", role: "input", speed: 730.5 },
        { shaft: "s4", role: "output", torque: 12 },
      ],
    }),
  );
  const set = solve(planetary(24, 18, 60, 2));
  return [
    ...[...solved.drive.shafts.keys()].flatMap((shaft) => workingsOf(solved, shaft, FILE_UNITS)),
    ...solved.drive.meshes.flatMap(({ id }) => meshWorkings(solved, id, FILE_UNITS)),
    ...[...set.drive.shafts.keys()].flatMap((shaft) => workingsOf(set, shaft, FILE_UNITS)),
  ];
};

describe("a line", () => {
  test("as LaTeX is read without a complaint and says what the MathML says, in both decimal signs", () => {
    let count = 0;
    for (const units of [FILE_UNITS, COMMA]) {
      for (const line of steps().flatMap((step) => step.lines)) {
        const latex = lineLatex(line, units);
        const math = linePieces(line, units)
          .map((piece) => mathMarkup(piece.math))
          .join("");
        expect(latex === "").toBe(math === "");
        if (latex === "") continue;
        const set = temml.renderToString(latex, { throwOnError: true, strict: true });
        expect(bare(set)).toBe(bare(math));
        count++;
      }
    }
    expect(count).toBeGreaterThan(300);
  });

  test("of the mixer in all its forms", () => {
    const line = workingsOf(mixer(), 1, FILE_UNITS)
      .flatMap((step) => step.lines)
      .find((one) => one.form === "teeth");
    if (!line) throw new Error("no ratio");
    expect(lineLatex(line, FILE_UNITS)).toBe(
      "i = \\frac{z_{\\text{b1}}}{z_{\\text{a1}}} = \\frac{50}{20} = 2.5\\text{, exactly }\\frac{5}{2}",
    );
    expect(lineSpoken(line, FILE_UNITS)).toBe(
      "i equals z of b1 over z of a1 equals 50 over 20 equals 2.5, exactly 5 over 2",
    );
    expect(copiedLine(line, "latex", FILE_UNITS)).toContain("\n\\[ i = ");
    expect(copiedLine(line, "mathml", FILE_UNITS)).toMatch(
      /^<p>Ratio of the mesh.*<\/p>\n<math xmlns="http:\/\/www\.w3\.org\/1998\/Math\/MathML"/,
    );
    expect(copiedLine(line, "text", FILE_UNITS)).toMatch(/= 2\.5, exactly 5\/2$/);
  });

  test("read out has a word for every sign", () => {
    for (const line of steps().flatMap((step) => step.lines))
      expect(lineSpoken(line, FILE_UNITS)).not.toMatch(/[=×−+/_°πδΣηω]/);
  });
});

describe("numbers and names as LaTeX", () => {
  test("large, small, negative and with a comma", () => {
    expect(quantityLatex(60_000, "", FILE_UNITS)).toBe("60\\,000");
    expect(quantityLatex(-2.5e-9, "", FILE_UNITS)).toBe("-2.5 \\times 10^{-9}");
    expect(quantityLatex(26.565, "°", { ...FILE_UNITS, decimalSign: "," })).toBe("26{,}57^{\\circ}");
    expect(quantityLatex(12345.67, "mm", { ...FILE_UNITS, decimalSign: ",", figures: 6 })).toBe(
      "12\\,345{,}7\\,\\mathrm{mm}",
    );
  });

  test("no name breaks out of its braces, nor out of the markup", () => {
    expect(latexWords("a_1 {50 %} \\end ^~ $#&")).toBe(
      "a\\_1 \\{50 \\%\\} \\textbackslash{}end \\textasciicircum{}\\textasciitilde{} \\$\\#\\&",
    );
    const formula = [{ kind: "symbol", name: "z", sub: "<b>&\\" }] as const;
    expect(() => temml.renderToString(formulaLatex(formula, FILE_UNITS), { throwOnError: true })).not.toThrow();
    const line = {
      words: "<script>",
      symbols: formula,
      numbers: [],
      result: 1,
      unit: "",
      missing: null,
      about: [],
    } as const;
    expect(copiedLine(line, "mathml", FILE_UNITS)).not.toMatch(/<script|<b>/);
    expect(formulaText(formula, FILE_UNITS)).toBe("z_<b>&\\");
    expect(formulaSpoken(formula, FILE_UNITS)).toBe("z of <b>&\\");
  });
});

test("whole steps are copied with their tables", () => {
  const all = meshWorkings(mixer(), "m2", FILE_UNITS);
  expect(copiedSteps(all, "text", FILE_UNITS)).toContain("60°\t46.19 mm\t40.41 mm\t8 : 7\t3 : 2");
  expect(copiedSteps(all, "latex", FILE_UNITS)).toContain(
    "60° & $46.19\\,\\mathrm{mm}$ & $40.41\\,\\mathrm{mm}$ & $8 : 7$ & $3 : 2$ \\\\",
  );
  expect(copiedSteps(all, "mathml", FILE_UNITS).match(/<mtable>/g)).toHaveLength(2);
});
