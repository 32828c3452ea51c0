/** The 3D as a looped animation: how it is to be, how long it lasts, and the file. */
import { Download, Film, X } from "lucide-react";
import { useEffect, useId, useState } from "react";
import { MOST_BODIES, REASONS } from "../../bench/frame-rate";
import { frameHeight, loopOnBench } from "../../bench/loop-frames";
import { useColours } from "../../bench/theme-colours";
import { leastFaster, pitchesAPicture, planLoop, shownSeconds } from "../../engine/motion/loop-choices";
import type { Rational } from "../../engine/motion/rational";
import { fastestMesh } from "../../engine/motion/shown-speed";
import { figures } from "../../engine/wording";
import { LOOP_WIDTH, readWidth } from "../../exchange/figure-files";
import { figureName } from "../../exchange/file-name";
import { download } from "../../exchange/save";
import { type Choice, ChoiceField } from "../../panels/fields/choice-field";
import { useClock } from "../../store/clock";
import { useDemo } from "../../store/demo";
import { useDocument } from "../../store/document";
import { useIsHiding } from "../../store/question";
import { useUnits } from "../../store/units";
import { announce, useView } from "../../store/view";
import { sizeWords } from "../saved/words";
import { Press } from "./figure-press";
import css from "./figures-dialog.module.css";
import { lengthTrouble, lengthWords, MOST_PITCHES, NEVER, NO_LOOP, placeTrouble, TOO_LONG } from "./loop-words";
import { useAddress } from "./use-address";
import { type LoopMaker, useLoop } from "./use-loop";

const USUAL_WIDTH = "640";
type Marks = "hidden" | "shown";
const MARKS: readonly Choice<Marks>[] = [
  { value: "hidden", words: "hidden: rims, cranks, bars" },
  { value: "shown", words: "shown" },
];
const GROUNDS: readonly Choice<"plain" | "clear">[] = [
  { value: "plain", words: "plain, as the bench" },
  { value: "clear", words: "transparent" },
];
/** Pictures a second whose delay is a whole number of hundredths, by that number. */
const RATES: readonly Choice<string>[] = ["2", "4", "5", "10"].map((value) => ({
  value,
  words: String(100 / Number(value)),
}));

const USUAL = "4";
/** s: a loop shorter than this has few pictures as it is, and can have twice as many; so has one whose teeth pass too fast else. */
const BRIEF = 2;
const SMOOTH = "2";

/** Why nothing can be taken from the bench now; null where it can. */
function usePlaceTrouble(): string | null {
  const isHidden = useIsHiding();
  const gears = useDocument((state) => state.drive.gears.length);
  const { drawing, drawingReason, ghost } = useView((state) => state);
  const isDemo = useDemo(({ shown }) => shown !== null);
  const isMany = gears > MOST_BODIES;
  const why = drawingReason === REASONS.noWebGL ? "noWebGL" : drawingReason === REASONS.lost ? "lost" : null;
  return placeTrouble({
    isHidden,
    gears,
    isGuest: isDemo || ghost !== null,
    isFlat: isMany || drawing === "flat",
    why: isMany ? "many" : why,
  });
}

const useSeesTeeth = (): boolean => useView(({ drawing, showTeeth }) => drawing === "full" && showTeeth);

export const LoopFigure = () => {
  const trouble = usePlaceTrouble();
  const seesTeeth = useSeesTeeth();
  const slowdown = useClock((clock) => clock.slowdown);
  const [marks, setMarks] = useState<Marks>("hidden");
  const { state, make, cancel, drop } = useLoop();
  const loop = trouble === null ? loopOnBench(marks === "shown", seesTeeth) : null;
  const period = loop && "period" in loop ? loop.period : null;
  const isEndless = period !== null && !(shownSeconds(period, slowdown) < NEVER);
  const none = trouble ?? (loop && "none" in loop ? NO_LOOP[loop.none] : isEndless ? TOO_LONG : null);
  const isMaking = state.is === "making";
  const onMarks = (next: Marks): void => {
    drop();
    setMarks(next);
  };
  return (
    <div className={css.loop}>
      <ChoiceField label="Marks" value={marks} choices={MARKS} onChange={onMarks} disabled={isMaking} />
      {none !== null && (
        <p role="alert" className={css.trouble}>
          {none}
        </p>
      )}
      {period && none === null && <Wishes {...{ state, make, drop, marks, period }} />}
      <Outcome state={state} cancel={cancel} />
    </div>
  );
};

interface WishesProps extends Pick<LoopMaker, "state" | "make" | "drop"> {
  readonly marks: Marks;
  /** Minutes of the running drive. */
  readonly period: Rational;
}

/** How it is to be, and what comes of that. */
const Wishes = ({ state, make, drop, marks, period }: WishesProps) => {
  const solved = useDocument((document) => document.solved);
  const slowdown = useClock((clock) => clock.slowdown);
  const { ground } = useColours();
  const units = useUnits();
  const seesTeeth = useSeesTeeth();
  const [typed, setTyped] = useState(USUAL_WIDTH);
  const [behind, setBehind] = useState<"plain" | "clear">("plain");
  const [chosen, setDelay] = useState<string | null>(null);
  const [speed, setSpeed] = useState<"bench" | "faster">("faster");
  const id = useId();

  const hasMarks = marks === "shown";
  const seconds = (s: number): string => `${figures(s, 3, units.decimalSign)} s`;
  const whole = shownSeconds(period, slowdown);
  const least = leastFaster(whole);
  const faster = speed === "faster" ? least : 1;
  const pitchesAt = (each: string): number =>
    pitchesAPicture(fastestMesh(solved), period, planLoop(whole, faster, Number(each)).frames);
  const delay = chosen ?? (whole < BRIEF || pitchesAt(USUAL) >= MOST_PITCHES ? SMOOTH : USUAL);
  const plan = planLoop(whole, faster, Number(delay));
  const bareLoop = hasMarks ? loopOnBench(false, seesTeeth) : null;
  const bare = bareLoop && "period" in bareLoop ? shownSeconds(bareLoop.period, slowdown) : null;
  const warning = lengthTrouble({ frames: plan.frames, pitches: pitchesAt(delay) });
  const height = frameHeight(1000);
  const width = readWidth(typed, { width: 1000, height }, LOOP_WIDTH);
  const wrong = typeof width === "string" ? width : null;
  const isMaking = state.is === "making";
  const isOff = isMaking || wrong !== null || warning?.isRefused === true;
  const hasCarrier = solved.index.frameOfShaft.some((carrier) => carrier >= 0);
  const hasFriction = solved.placement.meshes.some((mesh) => mesh?.kind.isFriction);
  const changed =
    <T,>(set: (value: T) => void) =>
    (value: T): void => {
      drop();
      set(value);
    };
  const speeds: readonly Choice<"bench" | "faster">[] = [
    { value: "faster", words: `${least} times faster, ${seconds(whole / least)}` },
    { value: "bench", words: `as on the bench, ${seconds(whole)}` },
  ];
  const begin = (): void => {
    if (typeof width !== "number") return;
    const size = { width, height: frameHeight(width) };
    const wish = { ...size, hasMarks, ground: behind === "plain" ? ground : null, period, frames: plan.frames };
    void make(wish, plan.delay);
  };
  return (
    <>
      <div className={css.fields}>
        <ChoiceField
          label="Pictures a second"
          value={delay}
          choices={RATES}
          onChange={changed(setDelay)}
          disabled={isMaking}
        />
        <ChoiceField
          label="Ground"
          value={behind}
          choices={GROUNDS}
          onChange={changed(setBehind)}
          disabled={isMaking}
        />
        {least > 1 && (
          <ChoiceField label="Speed" value={speed} choices={speeds} onChange={changed(setSpeed)} disabled={isMaking} />
        )}
      </div>
      <div className={css.row}>
        <label htmlFor={id}>GIF width</label>
        <input
          id={id}
          className={css.width}
          type="text"
          inputMode="numeric"
          autoComplete="off"
          value={typed}
          disabled={isMaking}
          aria-invalid={wrong !== null || undefined}
          aria-describedby={`${id}-height`}
          onChange={(event) => changed(setTyped)(event.target.value)}
        />
        <span id={`${id}-height`} className={wrong === null ? css.soft : css.trouble}>
          {wrong ?? (typeof width === "number" ? `px, ${frameHeight(width)} px high, as the bench is seen now` : "")}
        </span>
      </div>
      <p>
        {lengthWords({ whole, shown: plan.seconds, frames: plan.frames, hasMarks, hasCarrier, faster, bare, seconds })}
        {hasFriction && " Friction wheels turn in it as without slip."}
      </p>
      {warning && <p className={warning.isRefused ? css.trouble : undefined}>{warning.words}</p>}
      <div className={css.row}>
        <Press words="Make the animation" is={Film} off={isOff} run={begin} />
      </div>
    </>
  );
};

/** How far it is, the animation itself, or why there is none. */
const Outcome = ({ state, cancel }: Pick<LoopMaker, "state" | "cancel">) => {
  const title = useDocument((document) => document.drive.title);
  const [saved, setSaved] = useState("");
  const file = state.is === "made" ? state.file : null;
  // A GIF can't be paused: where motion is not wished for it is not shown.
  const isStill = window.matchMedia?.("(prefers-reduced-motion: reduce)").matches ?? false;
  const address = useAddress(isStill ? null : file);
  const words = "words" in state ? state.words : file ? `The animation is made: ${sizeWords(file.size)}.` : "";
  useEffect(() => {
    setSaved("");
    if (words) announce(words);
  }, [words]);
  const save = (made: Blob): void => {
    const name = figureName(title, "3D loop", "gif");
    download(made, name);
    setSaved(` Saved as ${name}.`);
    announce(`Saved as ${name}.`);
  };
  return (
    <div className={css.files}>
      {state.is === "making" && (
        <div className={css.row}>
          <progress max={state.of} value={state.done} aria-label="Frames made" />
          <span>
            Frame {state.done} of {state.of}
          </span>
          <Press words="Cancel" is={X} off={false} run={cancel} />
        </div>
      )}
      {address && (
        <div className={css.preview}>
          <div className={css.paper}>
            <img src={address} alt="3D, looped animation as it will be saved" />
          </div>
        </div>
      )}
      {file && (
        <div className={css.row}>
          <Press words="Download GIF" is={Download} off={false} run={() => save(file)} />
        </div>
      )}
      <output className={state.is === "failed" ? css.trouble : css.soft}>
        {words}
        {saved}
      </output>
    </div>
  );
};
