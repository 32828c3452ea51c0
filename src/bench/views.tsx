/** Named views: from the front, the top, the side, along the first shaft, fit; and an eye at each end of the selected shaft. */
import { Eye, ZoomIn } from "lucide-react";
import { useEffect, useRef } from "react";
import { lookAway, lookClosely, meshToLookAt, useClose } from "../store/close-look";
import { useDemo } from "../store/demo";
import { useDocument } from "../store/document";
import { look, useView } from "../store/view";
import css from "./transport.module.css";
import { endNames, tellingEndOf } from "./view-ends";

export const Views = () => {
  const solved = useDocument((state) => state.solved);
  const selection = useView((state) => state.selection);
  // Nothing to look at closely in a flat drawing; and a stage or a change that would be has to be seen whole.
  const canBeClose = useView(({ adding, asking, drawing }) => adding === null && !asking && drawing !== "flat");
  const isDemo = useDemo(({ shown }) => shown !== null);
  const close = canBeClose && !isDemo ? meshToLookAt(solved, selection) : null;
  const isClose = useClose(({ mesh }) => mesh !== null);
  const closeButton = useRef<HTMLButtonElement>(null);
  const wasClose = useRef(false);
  useEffect(() => {
    // Its panel goes, and what had the focus there with it.
    if (wasClose.current && !isClose && document.activeElement === document.body) closeButton.current?.focus();
    wasClose.current = isClose;
  }, [isClose]);
  const shaft =
    selection?.kind === "shaft"
      ? (solved.index.shafts.get(selection.id) ?? -1)
      : selection?.kind === "gear"
        ? (solved.index.shaftOfGear[solved.index.gears.get(selection.id) ?? -1] ?? -1)
        : -1;
  const chosen = solved.placement.shafts[shaft] ? shaft : -1;
  const first = solved.drive.ports.find((port) => port.role === "input")?.shaft ?? solved.drive.shafts[0]?.id;
  const along = chosen >= 0 ? chosen : (solved.index.shafts.get(first ?? "") ?? -1);
  const alongId = solved.drive.shafts[along]?.id;
  const names = chosen >= 0 ? endNames(solved, chosen) : null;
  const id = solved.drive.shafts[chosen]?.id ?? "";
  return (
    <fieldset className={css.group} aria-label="Views">
      <button
        type="button"
        className={css.button}
        onClick={() => look({ name: "home" })}
        title="From the corner, a little from above"
      >
        Corner
      </button>
      <button type="button" className={css.button} onClick={() => look({ name: "front" })} title="From the front">
        Front
      </button>
      <button type="button" className={css.button} onClick={() => look({ name: "top" })} title="From above">
        Top
      </button>
      <button
        type="button"
        className={css.button}
        onClick={() => look({ name: "right" })}
        title="From the right-hand side"
      >
        Side
      </button>
      {alongId !== undefined && (
        <button
          type="button"
          className={css.button}
          onClick={() => look({ name: "along", shaft: alongId, end: tellingEndOf(solved, along) })}
          title="Along the shaft"
        >
          End
        </button>
      )}
      <button
        type="button"
        className={css.button}
        onClick={() => look({ name: "fit" })}
        title="The whole drive, from here"
      >
        Fit
      </button>
      {close !== null && (
        <button
          ref={closeButton}
          type="button"
          className={css.button}
          aria-pressed={isClose}
          onClick={() => (isClose ? lookAway() : lookClosely(close))}
          title="One mesh, close and slow, with the points where its flanks touch"
        >
          <ZoomIn size={18} aria-hidden="true" /> Close look
        </button>
      )}
      {names &&
        (["plus", "minus"] as const).map((end) => (
          <button
            key={end}
            type="button"
            className={css.button}
            onClick={() => look({ name: "along", shaft: id, end: end === "plus" ? "+" : "-" })}
          >
            <Eye size={18} aria-hidden="true" /> from the {names[end]}
          </button>
        ))}
    </fieldset>
  );
};
