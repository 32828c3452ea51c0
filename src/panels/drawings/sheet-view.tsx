/** One drawing on the page, as SVG of its own elements. A press selects a part; what is selected is lit. */
import { type MouseEvent, memo, useLayoutEffect, useRef } from "react";
import { strokeOf, TEXT } from "../../engine/drawing/svg-marks";
import type { LayerName } from "../../engine/drawing/types";
import type { Solved } from "../../engine/solved";
import { shaftName } from "../../engine/wording";
import { type Part, select } from "../../store/view";
import styles from "./drawings.module.css";
import type { Sheet, ShownView } from "./orders";
import { partAt } from "./picked";

/** Pixels for each mm of paper: the 3.5 mm of the labels come to 16. */
const PIXELS = 4.6;
/** Shafts whose turn is told with a picture. */
const MOST_TOLD = 12;

interface Props {
  readonly sheet: Sheet;
  readonly solved: Solved;
  readonly selection: Part | null;
  /** Widths of lines over those of a sheet to keep. */
  readonly pen: number;
}

export function SheetView({ sheet, solved, selection, pen }: Props) {
  const svg = useRef<SVGSVGElement>(null);

  // Straight to the elements: drawing thousands of them anew for another selection would be felt.
  // biome-ignore lint/correctness/useExhaustiveDependencies: another sheet has other elements
  useLayoutEffect(() => {
    const { shafts, gears } = litParts(solved, selection);
    for (const mark of svg.current?.querySelectorAll("[data-gear], [data-shaft]") ?? []) {
      const isLit = shafts.includes(mark.getAttribute("data-shaft")) || gears.includes(mark.getAttribute("data-gear"));
      mark.toggleAttribute("data-lit", isLit);
    }
  }, [sheet, solved, selection]);

  const press = (event: MouseEvent<SVGSVGElement>): void => {
    const part = partAt(event.currentTarget, event.target as Element, event.clientX, event.clientY);
    if (part) select(part);
  };
  const [width, height] = [sheet.width, sheet.height].map((mm) => Math.ceil(mm * PIXELS));
  return (
    // biome-ignore lint/a11y/useKeyWithClickEvents: the list of parts above does the same by keyboard.
    <svg
      ref={svg}
      className={styles.sheet}
      role="img"
      aria-label={sheet.views.map((view) => toldView(solved, view)).join(". ")}
      width={width}
      height={height}
      viewBox={`0 ${sheet.top} ${sheet.width} ${sheet.height}`}
      onClick={press}
    >
      <Marks views={sheet.views} pen={pen} />
    </svg>
  );
}

const Marks = memo(function Marks({ views, pen }: Pick<Sheet, "views"> & Pick<Props, "pen">) {
  return views.map(({ name, layers }) => (
    <g key={name} data-view={name}>
      {layers.map((layer) => (
        <Layer key={layer.name} {...layer} pen={pen} />
      ))}
    </g>
  ));
});

const partData = (part: { readonly kind: string; readonly id: string } | null) =>
  part ? { [`data-${part.kind}`]: part.id } : {};

function Layer({ name, marks, pen }: ShownView["layers"][number] & Pick<Props, "pen">) {
  return (
    <g data-layer={name} {...lookOf(name, pen)}>
      {marks.map((mark, i) => {
        const key = i;
        if (mark.shape === "text") {
          return (
            <text key={key} x={mark.x} y={mark.y} textAnchor={mark.anchor} {...partData(mark.part)}>
              {mark.text}
            </text>
          );
        }
        return (
          <path key={key} d={mark.path} fill={mark.isFilled ? "currentColor" : undefined} {...partData(mark.part)} />
        );
      })}
    </g>
  );
}

function lookOf(name: LayerName, pen: number) {
  if (name === "labels") return { fill: "currentColor", fontSize: TEXT };
  const { width, dashes } = strokeOf(name);
  const strokeDasharray =
    dashes === ""
      ? undefined
      : dashes
          .split(" ")
          .map((length) => pen * Number(length))
          .join(" ");
  return { fill: "none", stroke: "currentColor", strokeWidth: pen * width, strokeDasharray };
}

/** Ids of what is lit: a shaft or gear itself, both gears of a mesh. */
function litParts({ drive, index }: Solved, selection: Part | null) {
  const none: readonly (string | null)[] = [];
  if (selection?.kind === "shaft") return { shafts: [selection.id], gears: none };
  if (selection?.kind === "gear") return { shafts: none, gears: [selection.id] };
  return { shafts: none, gears: drive.meshes[index.meshes.get(selection?.id ?? "") ?? -1]?.gears ?? none };
}

/** A view in words: what it is, and which way each shaft turns as seen there. */
function toldView(solved: Solved, { label, layers }: ShownView): string {
  const turns = new Map<string, string>();
  for (const { part, ...mark } of layers.find(({ name }) => name === "arrows")?.marks ?? []) {
    if (part && mark.shape === "path" && mark.turn && mark.turn !== "near side moves") turns.set(part.id, mark.turn);
  }
  const told = [...turns].slice(0, MOST_TOLD).map(([id, turn]) => {
    const shaft = solved.index.shafts.get(id);
    return `${shaft === undefined ? id : shaftName(solved.drive, shaft)} turns ${turn}`;
  });
  return [label, ...told].join(", ");
}
