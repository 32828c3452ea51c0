/** A drawing as the text of an SVG file: layers named, text as text, no ground, line types of ISO 128-2. Same drawing, same bytes. */
import { type Mark, marksOf, number, strokeOf, TEXT } from "./svg-marks";
import { type Drawing, type DrawnPart, type Item, LAYERS, type LayerName } from "./types";

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

const partOf = (part: DrawnPart | null): string => (part ? ` data-${part.kind}="${escaped(part.id)}"` : "");

function markText(mark: Mark): string {
  const part = partOf(mark.part);
  if (mark.shape === "text") {
    const anchor = mark.anchor === "start" ? "" : ` text-anchor="${mark.anchor}"`;
    return `<text x="${mark.x}" y="${mark.y}"${anchor}${part}>${escaped(mark.text)}</text>`;
  }
  const turn = mark.turn ? ` data-turn="${mark.turn}"` : "";
  return `<path${part}${turn}${mark.isFilled ? ' fill="currentColor"' : ""} d="${mark.path}"/>`;
}

function layerText(view: string, name: LayerName, items: readonly Item[]): string[] {
  if (items.length === 0) return [];
  const { label, line } = LAYERS[name];
  const { width, dashes } = strokeOf(name);
  const look =
    name === "labels"
      ? `fill="currentColor" font-size="${TEXT}" font-family="sans-serif"`
      : `fill="none" stroke="currentColor" stroke-width="${width}"${dashes ? ` stroke-dasharray="${dashes}"` : ""}`;
  const texts = marksOf(items).map(markText);
  return [`<g id="${view}-${name}" data-label="${label}" data-line="${line}" ${look}>`, ...texts, "</g>"];
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
