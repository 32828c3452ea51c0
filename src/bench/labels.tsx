/** Labels over the picture, as text of the page: React writes them once for an edit, each frame only moves them. */
import { memo, useEffect, useMemo, useRef } from "react";
import { length, scale, sub } from "../engine/vector";
import { shaftColour } from "../store/colours";
import { isHeldByHand } from "../store/document";
import { useTroubles } from "../store/trouble";
import { useUnits } from "../store/units";
import { useView, viewStore } from "../store/view";
import { currentOrbit, screenSize } from "./camera";
import { type Box, type Label, labelList, moveApart } from "./label-list";
import css from "./labels.module.css";
import { eyePoint, project } from "./orbit";
import { onPlace } from "./overlay";
import { pick } from "./picking";
import { type ShownDrive, useShownDrive } from "./shown-drive";
import { pointAt } from "./turning";

export const Labels = () => (useView((state) => state.showLabels) ? <LabelLayer /> : null);

const LabelLayer = () => {
  const drive = useShownDrive();
  const units = useUnits();
  const labels = useMemo(() => labelList(drive.layout, units), [drive, units]);
  const selected = useView((state) => state.selection?.id ?? null);
  const troubles = useTroubles();
  const typeScale = useView((state) => state.typeScale);
  const host = useRef<HTMLDivElement>(null);
  /** Keys of the labels before which a body stands: after an edit most still do. */
  const covered = useRef<ReadonlySet<string>>(new Set());

  useEffect(() => {
    const elements = [...(host.current?.children ?? [])] as HTMLElement[];
    const boxes: Box[] = elements.map((element, i) => {
      const [width, height] = sizeOf(element, labels[i], typeScale);
      return { x: 0, y: 0, halfWidth: width / 2 + 1, halfHeight: height / 2, isHidden: false };
    });
    const isCovered = labels.map(({ key }) => covered.current.has(key));
    // Labels stand beside shafts: they move with the eye and with carriers, not with what turns in its place.
    const { model, poses } = drive.turning;
    const isCarried = model.order.some((shaft) => (model.frame[shaft] ?? -1) >= 0);
    let turn = 0;
    /** Labels still to be looked at since the eye last moved. */
    let toTest = labels.length;
    let seen: readonly unknown[] = [];
    const place = (): void => {
      const orbit = currentOrbit();
      const { width, height } = screenSize();
      const { selection, hover } = viewStore.getState();
      const now = [orbit, width, height, selection, hover];
      let isChanged = isCarried || now.some((value, i) => value !== seen[i]);
      if (isChanged) {
        seen = now;
        toTest = labels.length;
      }
      // A few in turn: who stands before whom changes slowly.
      const tests = isHeldByHand() ? FEW_TESTS : COVER_TESTS;
      for (let k = 0; k < tests && toTest > 0; k++, toTest--) {
        turn = (turn + 1) % labels.length;
        const label = labels[turn];
        // What something is wrong with is named, whatever stands before it.
        const isMarked = troubles.has(`${label?.kind} ${label?.id}`);
        const isBehindNow = label?.kind === "gear" && !isMarked && isBehind(drive, label);
        isChanged ||= isBehindNow !== isCovered[turn];
        isCovered[turn] = isBehindNow;
      }
      covered.current = new Set(labels.flatMap(({ key }, i) => (isCovered[i] ? key : [])));
      if (!isChanged) return;
      labels.forEach((label, i) => {
        const box = boxes[i];
        if (!box) return;
        const at = project(orbit, pointAt(poses.still, label.shaft, label.local), height);
        const isIn = at.depth > 0 && Math.abs(at.x) < width * 0.6 && Math.abs(at.y) < height * 0.6;
        box.isHidden = !isIn || (isCovered[i] ?? false);
        // A shaft's name stays whole at the rim of the picture.
        box.x = clampTo(width / 2 + at.x, box.halfWidth + 4, width - box.halfWidth - 4);
        box.y = clampTo(height / 2 - at.y, box.halfHeight + VIEWS_ROW, height - box.halfHeight - 4);
      });
      moveApart(boxes, (i) => {
        const label = labels[i];
        const isLit = label?.id === selection?.id || label?.id === hover?.id;
        return !label?.isChief && !isLit && !troubles.has(`${label?.kind} ${label?.id}`);
      });
      elements.forEach((element, i) => {
        const box = boxes[i];
        if (!box) return;
        const visibility = box.isHidden ? "hidden" : "visible";
        if (element.style.visibility !== visibility) element.style.visibility = visibility;
        // Where it isn't seen it need not be moved.
        if (box.isHidden) return;
        element.style.transform = `translate(${(box.x - box.halfWidth).toFixed(1)}px, ${(box.y - box.halfHeight).toFixed(1)}px)`;
      });
    };
    place();
    return onPlace(place);
    // A label with a word more is wider.
  }, [drive, labels, troubles, typeScale]);

  return (
    <div ref={host} className={css.labels} aria-hidden="true">
      {labels.map((label) => (
        <LabelText
          key={label.key}
          kind={label.kind}
          shaft={label.shaft}
          text={label.text}
          isSelected={label.id === selected}
          trouble={troubles.get(`${label.kind} ${label.id}`)}
        />
      ))}
    </div>
  );
};

/** Sizes of labels seen before: asking the page for one makes it lay itself out anew, in the middle of a drag. */
const sizes = new Map<string, readonly [number, number]>();

function sizeOf(element: HTMLElement, label: Label | undefined, typeScale: number): readonly [number, number] {
  // All digits are equally wide.
  const key = `${typeScale} ${label?.kind} ${label?.text.replace(/\d/g, "0")}`;
  const known = sizes.get(key);
  if (known) return known;
  const size = [element.offsetWidth, element.offsetHeight] as const;
  // While the page isn't laid out (its font on the way, say) nothing is learnt.
  if (size[0] > 0 && document.fonts?.status !== "loading") sizes.set(key, size);
  return size;
}

/** px at the top of the picture that the row of view buttons covers. */
const VIEWS_ROW = 56;

/** How many labels are looked at each frame for whether a body stands before them. */
const COVER_TESTS = 8;
/** In a drag by hand each edit begins anew with them. */
const FEW_TESTS = 2;

/** Whether a body stands before a label's place: then it would seem to belong to that body. */
function isBehind({ layout, turning }: ShownDrive, label: Label): boolean {
  const eye = eyePoint(currentOrbit());
  const d = sub(pointAt(turning.poses.still, label.shaft, label.local), eye);
  const away = length(d);
  const hit = pick(layout, turning.poses.still, { origin: eye, direction: scale(d, 1 / away) });
  return hit !== null && hit.distance < away * 0.999;
}

interface LabelTextProps extends Pick<Label, "kind" | "shaft" | "text"> {
  readonly isSelected: boolean;
  /** What is wrong with the part. */
  readonly trouble: string | undefined;
}

const LabelText = memo(function LabelText({ kind, shaft, text, isSelected, trouble }: LabelTextProps) {
  return (
    <span
      className={css[kind]}
      data-selected={isSelected || undefined}
      style={kind === "shaft" ? { borderColor: shaftColour(shaft).variable } : undefined}
    >
      {text}
      {trouble === undefined ? null : <em className={css.trouble}> {trouble}</em>}
    </span>
  );
});

const clampTo = (x: number, least: number, most: number): number => Math.max(least, Math.min(Math.max(least, most), x));
