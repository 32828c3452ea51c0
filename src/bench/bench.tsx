/** The bench: the picture (3D, or flat where that can't be had), what is written over it, and all gestures on it. */
import { lazy, Suspense, useCallback, useEffect, useRef, useState } from "react";
import { clockStore } from "../store/clock";
import { useClose } from "../store/close-look";
import { useDemo } from "../store/demo";
import { useDocument } from "../store/document";
import { freeHandle, useLesson } from "../store/lesson-state";
import { followTrouble } from "../store/trouble";
import { announce, setView, useView, viewStore } from "../store/view";
import css from "./bench.module.css";
import { sayOnBench, useBenchNote } from "./bench-note";
import { describeDrive } from "./describe";
import { FrameWatch, MOST_BODIES, pinnedDrawing, REASONS, simpler } from "./frame-rate";
import { followGestures } from "./gestures";
import { GrowButtons } from "./grow-buttons";
import { Labels } from "./labels";
import { Stage } from "./stage";
import { onTick, useTicking } from "./ticking";

/** Comes where the picture can't be had in 3D, or there are too many bodies for it. */
const FlatDrawing = lazy(() =>
  import("./flat-drawing").then(
    ({ FlatDrawing }) => ({ default: FlatDrawing }),
    () => {
      sayOnBench(
        "The flat drawing could not be loaded; the readouts and the structure (key T) tell all that it shows.",
      );
      return { default: () => <></> };
    },
  ),
);

/** Comes with the first close look. */
const ClosePanel = lazy(async () => ({ default: (await import("./close-panel")).ClosePanel }));
/** Come with the first part that is selected. */
const Handles = lazy(async () => ({ default: (await import("./handles/handles")).Handles }));

/** Comes with the first note or measure; where it fails to come, the notes can still be read in their panel. */
const Marks = lazy(() =>
  import("./marks").then(
    ({ Marks }) => ({ default: Marks }),
    () => {
      sayOnBench("Pins and dimension lines could not be loaded; Measure (key M) has all notes and figures.");
      return { default: () => <></> };
    },
  ),
);

const HELP =
  "Arrow keys turn the view, plus and minus zoom, 0 fits the drive, Home shows it from the corner. Drag a gear to crank the drive, the ground to turn the view.";

export const Bench = () => {
  useTicking();
  useFrameWatch();
  const region = useRef<HTMLDivElement>(null);
  const gears = useDocument((state) => state.drive.gears.length);
  const isMany = gears > MOST_BODIES;
  const drawing = useView((state) => (isMany ? "flat" : state.drawing));
  const hasNotes = useDocument((state) => state.drive["x-notes"] !== undefined);
  const isMeasuring = useView((state) => state.aside === "measure");
  const [starts, setStarts] = useState(0);
  const isClose = useClose(({ mesh }) => mesh !== null);
  // They would lie over the teeth that are looked at.
  const isDemo = useDemo(({ shown }) => shown !== null);
  const isPresenting = useView(({ presenting }) => presenting);
  // A step of a lesson says what may be pulled: nothing grows meanwhile.
  const isLed = useLesson((state) => freeHandle(state) !== null);
  const hasHandles = useView(({ selection }) => selection !== null) && !isClose && !isDemo && !isPresenting;

  useEffect(followTrouble, []);
  useEffect(() => (region.current ? followGestures(region.current) : undefined), []);

  const fail = useCallback((why: "noWebGL" | "lost"): void => {
    // A lost picture is asked for once more: graphics cards come back from sleep.
    if (why === "lost" && mayRestart()) setStarts((count) => count + 1);
    else draw("flat", REASONS[why]);
  }, []);

  return (
    <section className={css.bench} aria-label="Bench">
      <div
        ref={region}
        className={css.region}
        role="application"
        aria-label={`The drive, drawn. ${HELP}`}
        aria-describedby="bench-words"
        // biome-ignore lint/a11y/noNoninteractiveTabindex: the picture is worked with the keyboard, by keys of its own.
        tabIndex={0}
      >
        {drawing === "flat" ? (
          <Suspense>
            <FlatDrawing />
          </Suspense>
        ) : (
          <Stage key={starts} onFail={fail} />
        )}
        <Labels />
        {hasHandles && (
          <Suspense>
            <Handles />
          </Suspense>
        )}
        {(hasNotes || isMeasuring) && !isDemo && (
          <Suspense>
            <Marks />
          </Suspense>
        )}
        {!isDemo && !isPresenting && !isLed && <GrowButtons />}
      </div>
      <Words />
      <Notes />
    </section>
  );
};

let restarts: number[] = [];
/** At most two restarts in a minute: a card that drops the picture again at once won't keep it. */
function mayRestart(): boolean {
  const now = performance.now();
  restarts = [...restarts.filter((time) => now - time < 60_000), now];
  return restarts.length <= 2;
}

function draw(drawing: "full" | "simple" | "flat", reason: string | null): void {
  setView({ drawing, drawingReason: reason });
  if (reason) announce(reason);
}

/** Watches how fast pictures come while the drive turns, and draws less where they come too slowly, unless the person chose. */
function useFrameWatch(): void {
  useEffect(() => {
    const pinned = pinnedDrawing(window.location.search);
    if (pinned) {
      setView({ drawing: pinned, drawingChosen: true });
      return;
    }
    const watch = new FrameWatch();
    return onTick((seconds) => {
      const { drawing, drawingChosen } = viewStore.getState();
      if (drawingChosen || drawing === "flat" || !clockStore.getState().playing) return;
      if (!watch.isTooSlow(seconds)) return;
      const next = simpler(drawing);
      draw(next, next === "simple" ? REASONS.simple : REASONS.flat);
    });
  }, []);
}

const Words = () => {
  const words = useDocument((state) => describeDrive(state.solved));
  return (
    <p id="bench-words" className="only-heard">
      {words}
    </p>
  );
};

/** How long the sentence on the drawing stands by itself before it folds, ms: it would cover the drive on a small screen. */
const REASON_TIME = 8_000;

const Notes = () => {
  const note = useBenchNote();
  const isMany = useDocument((state) => state.drive.gears.length > MOST_BODIES);
  const chosen = useView((state) => state.drawingReason);
  const reason = isMany ? REASONS.many : chosen;
  const isClose = useClose(({ mesh }) => mesh !== null);
  const demo = useDemo(({ shown }) => shown?.words);
  return (
    <div className={css.notes}>
      {demo !== undefined && <p className={css.note}>{demo}</p>}
      {isClose && (
        <Suspense>
          <ClosePanel />
        </Suspense>
      )}
      {note && <p className={css.note}>{note}</p>}
      {reason && <Reason key={reason} reason={reason} />}
    </div>
  );
};

/** Why the drawing is not full, and the way back to it; folds to a small button. */
const Reason = ({ reason }: { readonly reason: string }) => {
  const drawing = useView((state) => state.drawing);
  const [isOpen, setOpen] = useState(true);
  useEffect(() => {
    const timer = setTimeout(() => setOpen(false), REASON_TIME);
    return () => clearTimeout(timer);
  }, []);
  const canBeFull = reason !== REASONS.noWebGL && reason !== REASONS.many;
  const name = drawing === "flat" ? "Flat drawing" : "Simple drawing";
  if (!isOpen) {
    return (
      <button type="button" className={css.folded} aria-expanded={false} onClick={() => setOpen(true)}>
        {name}: why?
      </button>
    );
  }
  return (
    <p className={css.note}>
      {reason}{" "}
      {canBeFull && (
        <button
          type="button"
          className={css.again}
          onClick={() => setView({ drawing: "full", drawingReason: null, drawingChosen: true })}
        >
          Draw in full
        </button>
      )}
      {canBeFull && (
        <button
          type="button"
          className={css.again}
          onClick={() => setView({ drawingReason: null, drawingChosen: true })}
        >
          {drawing === "flat" ? "Keep flat" : "Keep simple"}
        </button>
      )}
    </p>
  );
};
