/** The handles of what is selected, over the picture: each frame their knobs are put where they are seen, none on another. */
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { hasTeeth } from "../../engine/drive/types";
import { freeHandle, useLesson } from "../../store/lesson-state";
import { useView } from "../../store/view";
import { screenSize } from "../camera";
import { onPlace } from "../overlay";
import { useShownDrive } from "../shown-drive";
import { APART, type Frame, spread } from "./apart";
import { heldHandle, seenAt } from "./drag";
import type { Handle } from "./handle";
import css from "./handles.module.css";
import { handlesFor } from "./handles-for";
import { Knob } from "./knob";
import { SizeChoice } from "./size-choice";
import type { SizeWay } from "./size-handle";

const CHOICE = "choice";
/** px from the rim of the picture to the middle of a knob, and the room that a figure takes beside one. */
const RIM = 26;
const FIGURE = 150;

export const Handles = () => {
  const { layout } = useShownDrive();
  const selection = useView((state) => state.selection);
  const [way, setWay] = useState<SizeWay>("teeth");
  // In a step of a lesson that frees one handle, that one alone.
  const free = useLesson(freeHandle);
  const handles = useMemo(
    () => handlesFor(layout.solved, selection, way).filter(({ sort }) => free === null || sort === free),
    [layout, selection, way, free],
  );
  const elements = useRef(new Map<string, HTMLElement>());
  const latest = useRef(handles);
  latest.current = handles;
  const onElement = useCallback((key: string, element: HTMLElement | null): void => {
    if (element) elements.current.set(key, element);
    else elements.current.delete(key);
  }, []);

  const has = handles.length > 0;
  useEffect(() => {
    if (!has) return;
    const place = (): void => placeKnobs(latest.current, elements.current);
    place();
    return onPlace(place);
  }, [has]);
  // What has been moved by an edit, or has come anew, is put in its place before the next picture.
  useEffect(() => placeKnobs(handles, elements.current), [handles]);

  const onChoice = useCallback((element: HTMLElement | null): void => onElement(CHOICE, element), [onElement]);

  const { solved } = layout;
  const gear = solved.drive.gears[solved.index.gears.get(selection?.id ?? "") ?? -1];
  const size = handles.find(({ sort }) => sort === "size");
  return (
    <div className={css.layer}>
      {handles.map((handle, i) => (
        <Knob key={handle.key} handle={handle} isChief={i === 0 && handle.sort !== "x"} onElement={onElement} />
      ))}
      {size && (
        <div ref={onChoice} className={css.choice}>
          <SizeChoice way={way} onWay={setWay} isToothed={gear !== undefined && hasTeeth(gear)} />
        </div>
      )}
    </div>
  );
};

function placeKnobs(handles: readonly Handle[], elements: ReadonlyMap<string, HTMLElement>): void {
  const { width, height } = screenSize();
  const frame: Frame = { left: RIM, top: viewsBelow(elements) + RIM, right: width - RIM, bottom: height - RIM };
  // One that is being dragged keeps its place, whatever it comes across.
  const inOrder = [...handles].sort((a, b) => Number(heldHandle(b.key) !== null) - Number(heldHandle(a.key) !== null));
  const spots: { readonly key: string; readonly x: number; readonly y: number; readonly isIn: boolean }[] = [];
  for (const handle of inOrder) {
    const at = seenAt(heldHandle(handle.key) ?? handle, handle.value);
    const spot = { x: width / 2 + at.x, y: height / 2 - at.y, isIn: at.depth > 0 };
    spots.push({ key: handle.key, ...spot });
    if (handle.sort === "size") spots.push({ key: CHOICE, ...spot, x: spot.x - APART });
  }
  spread(spots, frame).forEach(({ x, y }, i) => {
    const spot = spots[i];
    const element = spot && elements.get(spot.key);
    if (!spot || !element) return;
    element.style.visibility = spot.isIn ? "visible" : "hidden";
    element.style.transform = `translate(${x.toFixed(1)}px, ${y.toFixed(1)}px)`;
    element.dataset.side = x + FIGURE > width ? "left" : "right";
  });
}

let measured: { readonly key: string; readonly bottom: number } = { key: "", bottom: 0 };

/** px that the row of view buttons covers at the top of the picture; measured anew with each size of the picture and each set of knobs. */
function viewsBelow(elements: ReadonlyMap<string, HTMLElement>): number {
  const { width, height } = screenSize();
  const key = `${width} ${height} ${[...elements.keys()].join()}`;
  if (measured.key === key) return measured.bottom;
  const box = document.querySelector('[role="application"]')?.getBoundingClientRect();
  const views = document.querySelector('fieldset[aria-label="Views"]')?.getBoundingClientRect();
  measured = { key, bottom: box && views ? Math.max(0, Math.min(views.bottom - box.top, box.height / 2)) : 0 };
  return measured.bottom;
}
