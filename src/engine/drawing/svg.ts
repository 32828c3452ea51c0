/** A drawing as the text of an SVG file: layers named, text as text, no ground, line types of ISO 128-2. Same drawing, same bytes. */
import { type ArcItem, type Drawing, type DrawnPart, type Item, LAYERS, type LayerName, type Point } from "./types";

/** mm: wide lines; narrow ones are half as wide. */
const WIDE = 0.5;
const NARROW = 0.25;
/** In widths of the line: dash 12, gap 3; long dash 24, gap 3, dot 0.5, gap 3. */
const DASHES: Readonly<Record<string, readonly number[]>> = {
  "dashed narrow": [12, 3],
  "long-dashed dotted narrow": [24, 3, 0.5, 3],
};
/** mm, height of letters. ISO 3098 has capitals of 3.5 mm or 2.5 mm. */
const TEXT = 3.5;

const number = (x: number): string => {
  const text = x.toFixed(3).replace(/\.?0+$/, "");
  return text === "-0" ? "0" : text;
};
const point = ([x, y]: Point): string => `${number(x)} ${number(y)}`;

/** What XML 1.0 has no place for: most control characters, halves of pairs, two code points that are no character. */
const isForbidden = (code: number): boolean =>
  (code < 0x20 && code !== 9 && code !== 10 && code !== 13) ||
  (code >= 0xd800 && code <= 0xdfff) ||
  code === 0xfffe ||
  code === 0xffff;

const escaped = (text: string): string =>
  [...text]
    .map((letter) => (isForbidden(letter.codePointAt(0) ?? 0) ? "\ufffd" : letter))
    .join("")
    .replaceAll("&", "&amp;")
    .replaceAll("<", "&lt;")
    .replaceAll(">", "&gt;")
    .replaceAll('"', "&quot;");

function arcPath({ centre, rx, ry, tilt, from, to }: ArcItem): string {
  const [c, s] = [Math.cos(tilt), Math.sin(tilt)];
  const at = (t: number): Point => {
    const [x, y] = [rx * Math.cos(t), ry * Math.sin(t)];
    return [centre[0] + c * x - s * y, centre[1] + s * x + c * y];
  };
  const degrees = number((tilt * 180) / Math.PI);
  const to_ = (t: number, isLarge: boolean): string =>
    `A${number(rx)} ${number(ry)} ${degrees} ${isLarge ? 1 : 0} 1 ${point(at(t))}`;
  if (to - from < 2 * Math.PI - 1e-6) return `M${point(at(from))}${to_(to, to - from > Math.PI)}`;
  return `M${point(at(from))}${to_(from + Math.PI, false)}${to_(from, false)}Z`;
}

const partOf = (part: DrawnPart | null): string => (part ? ` data-${part.kind}="${escaped(part.id)}"` : "");

const pathOf = (item: Item): string =>
  item.shape === "line"
    ? `M${item.points.map(point).join("L")}${item.isClosed ? "Z" : ""}`
    : item.shape === "arc"
      ? arcPath(item)
      : "";

/** Paths that differ in nothing but their place are one path. */
function* itemTexts(items: readonly Item[]): Generator<string> {
  let open = "";
  let path = "";
  for (const item of items) {
    if (item.shape === "text") {
      const anchor = item.anchor === "start" ? "" : ` text-anchor="${item.anchor}"`;
      const [x, y] = [number(item.at[0]), number(item.at[1])];
      yield `<text x="${x}" y="${y}"${anchor}${partOf(item.part)}>${escaped(item.text)}</text>`;
      continue;
    }
    const fill = item.shape === "line" && item.isFilled ? ' fill="currentColor"' : "";
    const attributes = `${partOf(item.part)}${item.turn ? ` data-turn="${item.turn}"` : ""}${fill}`;
    if (path !== "" && attributes === open) {
      path += pathOf(item);
      continue;
    }
    if (path !== "") yield `<path${open} d="${path}"/>`;
    [open, path] = [attributes, pathOf(item)];
  }
  if (path !== "") yield `<path${open} d="${path}"/>`;
}

function layerText(view: string, name: LayerName, items: readonly Item[]): string[] {
  if (items.length === 0) return [];
  const { label, line } = LAYERS[name];
  const width = line === "continuous wide" ? WIDE : NARROW;
  const dashes = DASHES[line]?.map((k) => number(k * width)).join(" ");
  const look =
    name === "labels"
      ? `fill="currentColor" font-size="${TEXT}" font-family="sans-serif"`
      : `fill="none" stroke="currentColor" stroke-width="${width}"${dashes ? ` stroke-dasharray="${dashes}"` : ""}`;
  return [`<g id="${view}-${name}" data-label="${label}" data-line="${line}" ${look}>`, ...itemTexts(items), "</g>"];
}

export function svgOf({ title, width, height, views }: Drawing): string {
  const size = `width="${number(width)}mm" height="${number(height)}mm" viewBox="0 0 ${number(width)} ${number(height)}"`;
  const lines = [
    `<svg xmlns="http://www.w3.org/2000/svg" ${size} stroke-linecap="round" stroke-linejoin="round" role="img">`,
    `<title>${escaped(title === "" ? "Drive" : title)}</title>`,
  ];
  for (const { name, label, layers } of views) {
    lines.push(`<g id="${name}" data-label="${escaped(label)}">`);
    for (const layer of Object.keys(LAYERS) as LayerName[]) lines.push(...layerText(name, layer, layers[layer]));
    lines.push("</g>");
  }
  lines.push("</svg>", "");
  return lines.join("\n");
}
