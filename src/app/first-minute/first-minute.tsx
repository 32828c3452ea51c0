/**
 * The first minute: a crank turns an upright wheel; after a moment the motion runs out and one question stands at the foot of the
 * bench. Whatever is answered, the wheel leans over before one's eyes, and its handle is then the visitor's. Escape skips it.
 */
import { X } from "lucide-react";
import { useEffect, useId, useRef, useState } from "react";
import { ratioWords } from "../../engine/explain/ratio-words";
import { absolute } from "../../engine/motion/rational";
import type { Solved } from "../../engine/solved";
import { quantityIn } from "../../engine/wording";
import { clockStore, now, setPlaying } from "../../store/clock";
import { documentStore, isDragging, useDocument } from "../../store/document";
import { currentUnits } from "../../store/units";
import { announce, select, viewStore } from "../../store/view";
import { showDialog } from "../dialogs/dialog-store";
import css from "./first-minute.module.css";
import { claimFirstVisit } from "./first-visit";
import { easeToStop, leanTo, prefersStill } from "./motion";

/** The pair of the opening drive that leans, and how far. */
const MESH = "m1";
const ANGLE = 60;
/** ms of motion before the question, and how often it is looked whether the drive moves yet. */
const WATCHING = 4000;
const LOOK = 250;

export const QUESTION = `Lean the upright shaft over to ${ANGLE}°. Will it turn faster, slower, or the same?`;
export const ANSWER = "The same: 20 teeth still drive 40, so 2 turns of the crank give 1 at any angle.";
const ANSWERS = ["Faster", "Slower", "The same"] as const;

type Phase = "none" | "watching" | "easing" | "asking" | "leaning" | "told";

export const FirstMinute = () => {
  const [phase, setPhase] = useState<Phase>("none");
  const [first] = useState(() => ({ claimed: false }));

  useEffect(() => {
    if (first.claimed) return;
    first.claimed = true;
    if (claimFirstVisit(documentStore.getState().drive, window.location.search)) setPhase("watching");
  }, [first]);

  useEffect(() => {
    if (phase === "watching") return watch(() => setPhase("easing"));
    if (phase === "easing") return easeToStop(() => setPhase("asking"));
    if (phase === "leaning") return leanTo(MESH, ANGLE, () => setPhase((now) => (now === "leaning" ? "told" : now)));
    if (phase === "asking") announce(`${QUESTION} Three answers stand at the foot of the bench; Escape skips them.`);
    if (phase === "told") {
      setPlaying(!prefersStill());
      select({ kind: "mesh", id: MESH });
      announce(ANSWER);
    }
  }, [phase]);

  const leave = (): void => {
    if (phase !== "watching" && phase !== "told") setPlaying(!prefersStill());
    setPhase("none");
  };
  useLeaving(phase, leave);

  if (phase === "asking") return <Question onAnswer={() => setPhase("leaning")} onSkip={leave} />;
  if (phase === "leaning" || phase === "told") return <Told isOver={phase === "told"} onClose={leave} />;
  return null;
};

/** Waits until the drive has been seen to move for a moment; the bench may come later than the page. Returns the stop function. */
function watch(then: () => void): () => void {
  let seen = 0;
  let last = now.time;
  const timer = setInterval(() => {
    const isStill = clockStore.getState().playing && now.time === last;
    last = now.time;
    if (document.visibilityState === "hidden" || isStill) return;
    seen += LOOK;
    if (seen >= WATCHING && !isDragging()) then();
  }, LOOK);
  return () => clearInterval(timer);
}

/** One key leaves it. So does going on to something else: another edit before the question, a stage, another drive. */
function useLeaving(phase: Phase, leave: () => void): void {
  const latest = useRef(leave);
  latest.current = leave;
  useEffect(() => {
    if (phase === "none") return;
    const { opened } = documentStore.getState();
    const isBefore = phase !== "leaning" && phase !== "told";
    const stops = [
      documentStore.subscribe((state, before) => {
        const isOther = state.opened !== opened || state.drive.gears !== before.drive.gears;
        if (isOther || (isBefore && state.drive !== before.drive)) latest.current();
      }),
      viewStore.subscribe(({ adding }) => {
        if (adding) latest.current();
      }),
    ];
    const key = (event: KeyboardEvent): void => {
      if (event.key !== "Escape" || event.isComposing || (isDragging() && phase !== "leaning")) return;
      const at = event.target instanceof Element ? event.target : null;
      if (at?.closest("dialog, input, [role=menu]")) return;
      event.preventDefault();
      event.stopPropagation();
      latest.current();
    };
    // Before anybody else, who would drop the selection first.
    document.addEventListener("keydown", key, true);
    return () => {
      document.removeEventListener("keydown", key, true);
      for (const stop of stops) stop();
    };
  }, [phase]);
}

const Question = ({ onAnswer, onSkip }: { readonly onAnswer: () => void; readonly onSkip: () => void }) => {
  const id = useId();
  return (
    // biome-ignore lint/a11y/useSemanticElements: a fieldset belongs to a form, and its legend can't stand in a card.
    <div className={css.card} role="group" aria-labelledby={id}>
      <p id={id} className={css.question}>
        {QUESTION}
      </p>
      <div className={css.answers}>
        {ANSWERS.map((answer) => (
          <button key={answer} type="button" className={css.answer} onClick={onAnswer}>
            {answer}
          </button>
        ))}
        <button type="button" className={css.skip} onClick={onSkip} title="Skip (Escape)">
          Skip
        </button>
      </div>
    </div>
  );
};

const Told = ({ isOver, onClose }: { readonly isOver: boolean; readonly onClose: () => void }) => {
  const words = useRef<HTMLDivElement>(null);
  const now = useDocument(({ solved }) => angleAndTurns(solved));
  // The button that was pressed is gone: the focus stays in the card, at what comes of it.
  useEffect(() => {
    if (document.activeElement === null || document.activeElement === document.body)
      words.current?.focus({ preventScroll: true });
  }, []);
  return (
    // biome-ignore lint/a11y/useSemanticElements: nothing of a form.
    <div ref={words} className={css.card} role="group" aria-label="What comes of it" tabIndex={-1}>
      {isOver ? (
        <>
          <p className={css.question}>{ANSWER}</p>
          <p>Now it is yours: drag the handle on the arc, anywhere from 0° to 180°.</p>
          <button
            type="button"
            className={css.answer}
            onClick={() => {
              onClose();
              showDialog("lessons");
            }}
          >
            Why? A lesson tells…
          </button>
          <button type="button" className={css.close} aria-label="Close" title="Close (Escape)" onClick={onClose}>
            <X aria-hidden size={20} />
          </button>
        </>
      ) : (
        <p>{now}</p>
      )}
    </div>
  );
};

/** "At 74.2°: 2 turns of the crank give 1 of the shaft." */
function angleAndTurns({ drive, index, motion }: Solved): string {
  const mesh = index.meshes.get(MESH) ?? -1;
  const shaft = index.shaftsOfMesh[mesh]?.[1] ?? -1;
  const ratio = motion.ratios[shaft];
  const angle = drive.meshes[mesh]?.shaftAngle;
  if (!ratio || angle === undefined) return "";
  return `At ${quantityIn(angle, "°", currentUnits())}: ${ratioWords("the crank", "the shaft", absolute(ratio), currentUnits()).turns}.`;
}
