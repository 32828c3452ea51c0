/** A tiny evaluator for the arithmetic that the workings print, written apart from them: numbers, + − × /, (), sin, cos, arctan in degrees. */
const UNITS =
  /(rev\/min|rad\/s|ft\/min|lbf·ft|N·m|m\/s|\/in(?![a-z])|(?<![a-z])in(?![a-z])|mm|kW|hp|lbf|[WN](?![·\w])|°)/g;
const DEGREE = Math.PI / 180;

export function evaluate(text: string): number {
  const plain = text
    .replace(UNITS, "")
    .replaceAll("\u202f", "")
    .replace(
      / × 10([⁻⁰¹²³⁴⁵⁶⁷⁸⁹]+)/g,
      (_, power: string) =>
        `e${[...power]
          .map((c) => "⁻⁰¹²³⁴⁵⁶⁷⁸⁹".indexOf(c) - 1)
          .map((n) => (n < 0 ? "-" : n))
          .join("")}`,
    )
    .replaceAll("\u2212", "-")
    .replaceAll("×", "*")
    .replaceAll("π", String(Math.PI))
    .replace(/\s+/g, "");
  const tokens = plain.match(/\d+(?:\.\d+)?(?:e-?\d+)?|arctan|sin|cos|[-+*/()]/g) ?? [];
  if (tokens.join("") !== plain) throw new Error(`"${plain}" holds what is no arithmetic.`);
  let at = 0;
  const take = (wanted: string): boolean => {
    if (tokens[at] !== wanted) return false;
    at++;
    return true;
  };
  const atom = (): number => {
    const token = tokens[at++] ?? "";
    if (token === "-") return -atom();
    if (token === "(") {
      const value = sum();
      if (!take(")")) throw new Error(`A bracket is open in "${plain}".`);
      return value;
    }
    if (token === "sin") return Math.sin(atom() * DEGREE);
    if (token === "cos") return Math.cos(atom() * DEGREE);
    if (token === "arctan") return Math.atan(atom()) / DEGREE;
    const value = Number(token);
    if (token === "" || Number.isNaN(value)) throw new Error(`"${token}" is no number in "${plain}".`);
    return value;
  };
  const product = (): number => {
    let value = atom();
    for (;;) {
      if (take("*")) value *= atom();
      else if (take("/")) value /= atom();
      else return value;
    }
  };
  const sum = (): number => {
    let value = product();
    for (;;) {
      if (take("+")) value += product();
      else if (take("-")) value -= product();
      else return value;
    }
  };
  const value = sum();
  if (at !== tokens.length) throw new Error(`"${plain}" goes on after its end.`);
  return value;
}
