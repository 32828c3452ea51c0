import { describe, expect, it } from "vitest";
import { type NumberRules, numberText, readNumber, stepped } from "../../src/panels/fields/number-text";

const TEETH: NumberRules = { whole: true, least: 1, most: 100_000 };
const LENGTH: NumberRules = { unit: "mm", least: 0, above: true };

const value = (text: string, rules?: NumberRules): number => {
  const read = readNumber(text, rules);
  if (!("value" in read)) throw new Error(read.complaint);
  return read.value;
};
const complaint = (text: string, rules?: NumberRules): string => {
  const read = readNumber(text, rules);
  if ("value" in read) throw new Error(`read as ${read.value}`);
  return read.complaint;
};

describe("reading a number", () => {
  it.each([
    ["12", 12],
    ["1.5", 1.5],
    ["1,5", 1.5],
    ["0,125", 0.125],
    [".5", 0.5],
    ["12.", 12],
    ["1/3", 1 / 3],
    [" -7 ", -7],
    ["\u22127", -7],
    ["1e3", 1000],
    ["1 450", 1450],
    ["1\u202f450", 1450],
    ["+3", 3],
  ])("reads %j as %d", (text, number) => {
    expect(value(text)).toBe(number);
  });

  it.each([
    ["12 mm", "mm", 12],
    ["12mm", "mm", 12],
    ["1.2 cm", "mm", 12],
    ["0.5 m", "mm", 500],
    ["90°", "°", 90],
    ["90 deg", "°", 90],
    ["1450 rpm", "rev/min", 1450],
    ["2 Nm", "N·m", 2],
    ["2 N·m", "N·m", 2],
    ["1.1 kW", "W", 1100],
    ["0.2 kN", "N", 200],
    ["97 %", undefined, 0.97],
  ])("reads %j in %s as %d", (text, unit, number) => {
    expect(value(text, unit ? { unit } : {})).toBeCloseTo(number, 12);
  });

  it.each([
    ["", "Type a number."],
    ["-", "“-” is not finished: go on typing the number."],
    ["1/", "“1/” is not finished: go on typing the number."],
    ["1e", "“1e” is not finished: go on typing the number."],
    ["twelve", "“twelve” is not a number: write digits, as in 12 or 1.5."],
    ["NaN", "“NaN” is not a number: write digits, as in 12 or 1.5."],
    ["Infinity", "“Infinity” is not a number: write digits, as in 12 or 1.5."],
    ["0x10", "“0x10” is not a number: write digits, as in 12 or 1.5."],
    ["1e400", "“1e400” is too large a number to reckon with."],
    ["1/0", "Nothing can be divided by 0: write another number below the line."],
    ["1/2/3", "“1/2/3” is not a fraction: write one number over another, as in 1/3."],
    ["1,450", "“1,450” can be read two ways: write 1450 or 1.45."],
    ["1,450.5", "“1,450.5” has more than one decimal sign: write it without separators, as in 1450.5."],
    ["1.2.3", "“1.2.3” is not a number: write digits, as in 12 or 1.5."],
    ["12 kg", "“12 kg” is not a number: write digits, as in 12 or 1.5."],
    ["<script>", "“<script>” is not a number: write digits, as in 12 or 1.5."],
    ["9".repeat(65), "That is far too long for one number: type just the number."],
  ])("answers %j with a sentence", (text, sentence) => {
    expect(complaint(text)).toBe(sentence);
  });

  it("keeps to the rules of its field", () => {
    expect(value("20", TEETH)).toBe(20);
    expect(value("1e2", TEETH)).toBe(100);
    expect(value("40/2", TEETH)).toBe(20);
    expect(complaint("12.5", TEETH)).toBe("Only whole numbers go here: 12 or 13, not 12.5.");
    expect(complaint("0", TEETH)).toBe("It must be at least 1.");
    expect(complaint("-3", TEETH)).toBe("It must be at least 1.");
    expect(complaint("100001", TEETH)).toBe("It must be at most 100\u202f000.");
    expect(complaint("0", LENGTH)).toBe("It must be more than 0 mm.");
    expect(complaint("180", { unit: "°", least: 0, above: true, most: 180, below: true })).toBe(
      "It must be less than 180 °.",
    );
  });
});

describe("writing and stepping", () => {
  it("writes the shortest text that reads back", () => {
    expect(numberText(0.1)).toBe("0.1");
    expect(numberText(1 / 3, 7)).toBe("0.3333333");
    expect(numberText(-0)).toBe("0");
    expect(value(numberText(1 / 3))).toBe(1 / 3);
  });

  it("steps on the grid and stops at the limits", () => {
    expect(stepped(20, 1, 1, TEETH)).toBe(21);
    expect(stepped(20, 1, -10, TEETH)).toBe(10);
    expect(stepped(5, 1, -10, TEETH)).toBe(1);
    expect(stepped(0.3, 0.1, 1, {})).toBe(0.4);
    expect(stepped(0.25, 0.1, 1, {})).toBe(0.3);
    expect(stepped(0.25, 0.1, -1, {})).toBe(0.2);
    expect(stepped(0.5, 0.5, -1, LENGTH)).toBe(0.5);
    expect(stepped(179, 1, 1, { least: 0, above: true, most: 180, below: true })).toBe(179);
  });
});
