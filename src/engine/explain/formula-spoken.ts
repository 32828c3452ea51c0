/** Formulas in words, for those who hear them: every symbol with what it belongs to, every fraction with its end. */
import type { UnitChoice } from "../units/choice";
import type { Formula, FunctionName, Operator, Token } from "./formula";
import { spoken } from "./numbers";

const OPERATORS: Readonly<Record<Operator, string>> = {
  "=": "equals",
  "+": "plus",
  "−": "minus",
  "×": "times",
  ":": "to",
};
const FUNCTIONS: Readonly<Record<FunctionName, string>> = { sin: "sine", cos: "cosine", arctan: "arc tangent" };
const SYMBOLS: Readonly<Record<string, string>> = { π: "pi", δ: "delta", Σ: "capital sigma", η: "eta", ω: "omega" };

const isPlain = (formula: Formula): boolean =>
  formula.length === 1 && (formula[0]?.kind === "symbol" || formula[0]?.kind === "number");

function tokenSpoken(token: Token, units: UnitChoice): string {
  switch (token.kind) {
    case "symbol": {
      const name = SYMBOLS[token.name] ?? token.name;
      return token.sub === undefined ? name : `${name} of ${token.sub}`;
    }
    case "number":
      return spoken(token.value, token.unit, units);
    case "operator":
      return OPERATORS[token.sign];
    case "fraction": {
      const [over, under] = [formulaSpoken(token.over, units), formulaSpoken(token.under, units)];
      if (isPlain(token.over) && isPlain(token.under)) return `${over} over ${under}`;
      return `the fraction ${over}, over ${under}, end of fraction`;
    }
    case "group":
      return `open bracket ${formulaSpoken(token.of, units)} close bracket`;
    case "call":
      return isPlain(token.of)
        ? `${FUNCTIONS[token.name]} of ${formulaSpoken(token.of, units)}`
        : `${FUNCTIONS[token.name]} of open bracket ${formulaSpoken(token.of, units)} close bracket`;
  }
}

export const formulaSpoken = (formula: Formula, units: UnitChoice): string =>
  formula.map((token) => tokenSpoken(token, units)).join(" ");
