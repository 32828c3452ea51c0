/**
 * The document: one immutable drive, its solution, and undo. Every change of the drive goes through `perform`, as a
 * pure edit `Drive -> Drive | EditFault`; each gives one solve, and everything on screen reads `solved`.
 */
import { temporal } from "zundo";
import { useStore } from "zustand";
import { createStore } from "zustand/vanilla";
import { type Edit, isRefused } from "../engine/drive/commands/edit";
import { newDrive } from "../engine/drive/defaults";
import { QUESTION_KEY, type Question } from "../engine/drive/question";
import { isSameDrive } from "../engine/drive/same";
import type { Drive } from "../engine/drive/types";
import { whyTelling } from "../engine/question/telling";
import { veiled } from "../engine/question/veil";
import { solve } from "../engine/solve";
import type { Solved } from "../engine/solved";
import { pausing } from "./pause";

/** How many steps can be undone. */
export const UNDO_STEPS = 200;

export interface DocumentState {
  readonly drive: Drive;
  /** Always the solution of `drive`, as it may be shown: what its question hides is left out. Read `solved.drive` beside it. */
  readonly solved: Solved;
  /** The solution before the last edit (or before the drag that is under way), for "was -> now"; null after opening. */
  readonly was: Solved | null;
  /** What the edit that led to this drive is called, e.g. "teeth of b1"; empty for a drive just opened. */
  readonly label: string;
  /** Why the last edit was refused; null once one went through. */
  readonly refusal: string | null;
  /** Counts documents opened, so that views know when to fit anew. */
  readonly opened: number;
  /** What the question hides is shown. A matter of this page, never of the file or of undo. */
  readonly isRevealed: boolean;
  /** What a lesson asks in the place of the drive's own question; null where the drive's own stands. */
  readonly asked: Question | null;
}

/** A drive of the history, and what the edit that led to it is called. */
export interface Step {
  readonly drive: Drive;
  readonly label: string;
}

/** All that undo and redo bring back. */
export interface History {
  /** Oldest first. */
  readonly past: readonly Step[];
  readonly present: Step;
  /** What redo brings next first. */
  readonly future: readonly Step[];
}

const first = newDrive();

export const documentStore = createStore<DocumentState>()(
  temporal(
    (): DocumentState => ({
      drive: first,
      solved: solve(first),
      was: null,
      label: "",
      refusal: null,
      opened: 0,
      isRevealed: false,
      asked: null,
    }),
    {
      limit: UNDO_STEPS,
      partialize: ({ drive, label }): Step => ({ drive, label }),
      equality: (past, now) => isSameDrive(past.drive, now.drive),
    },
  ),
);

/** The drag that is under way: the drive before it. */
let mark: {
  readonly drive: Drive;
  readonly solved: Solved;
  readonly label: string;
  readonly isByHand: boolean;
} | null = null;

// The first listener of all: after an undo or redo the solution follows before anybody else looks.
documentStore.subscribe((state) => {
  if (state.drive !== state.solved.drive) {
    const isRevealed = state.isRevealed && !asksOther(state.drive, state.solved.drive);
    const solved = seen(solve(state.drive, state.solved), isRevealed, state.asked);
    documentStore.setState({ solved, was: toCompare(state.solved, solved), refusal: null, isRevealed });
  }
});

/**
 * What words, lists and numbers beside the bench show: the document as it is, but in a drag by hand they follow when the hand pauses, or
 * now and then. The bench reads `documentStore` itself and is never behind.
 */
const toldStore = createStore<DocumentState>()(() => documentStore.getState());
/** ms without an edit after which a drag is told, and ms after which it is told in any case. */
const telling = pausing(200, 500, tell);

function tell(): void {
  telling.stop();
  const state = documentStore.getState();
  if (toldStore.getState() !== state) toldStore.setState(state, true);
}

documentStore.subscribe(() => {
  if (isHeldByHand()) telling.touched();
  else tell();
});

/** A solution as the page may see it. */
const seen = (truth: Solved, isRevealed: boolean, asked: Question | null): Solved =>
  isRevealed ? truth : veiled(truth, asked ?? undefined);

/** Whether an edit changed the question: what was revealed is hidden again. */
const asksOther = (drive: Drive, before: Drive): boolean =>
  documentStore.getState().asked === null && drive[QUESTION_KEY] !== before[QUESTION_KEY];

/** Before and now are compared only where nothing is hidden in either. */
const toCompare = (was: Solved, now: Solved): Solved | null => (was.veil || now.veil ? null : was);

const history = () => documentStore.temporal.getState();

/**
 * Makes an edit: one undo step (or part of the drag under way), one solve. Returns whether it went through; a refused
 * edit leaves all as it was and its sentence in `refusal`.
 */
export function perform(edit: Edit, label: string): boolean {
  const { drive, solved, isRevealed, asked } = documentStore.getState();
  const result = edit(drive);
  if (isRefused(result)) {
    documentStore.setState({ refusal: result.refused });
    return false;
  }
  // In a drag it may lead back to where that began: at its end it is asked whether it did.
  if (result === drive || (mark === null && isSameDrive(result, drive))) {
    documentStore.setState({ refusal: null });
    return true;
  }
  const telling = solved.veil ? whyTelling(drive, result, asked) : null;
  if (telling !== null) {
    documentStore.setState({ refusal: telling });
    return false;
  }
  const stays = isRevealed && !asksOther(result, drive);
  const next = seen(solve(result, solved), stays, asked);
  documentStore.setState({
    drive: result,
    solved: next,
    was: toCompare(mark ? mark.solved : solved, next),
    label,
    refusal: null,
    isRevealed: stays,
  });
  return true;
}

/**
 * Begins a drag: the edits up to `endDrag` are one undo step. A drag within a drag is the same drag. `isByHand`: a pointer holds it, so that
 * what takes long waits for its end.
 */
export function beginDrag(isByHand = false): void {
  if (mark) return;
  const { drive, solved, label } = documentStore.getState();
  mark = { drive, solved, label, isByHand };
  history().pause();
}

export function endDrag(): void {
  if (!mark) return;
  const before = mark;
  const { drive } = documentStore.getState();
  if (drive !== before.drive && isSameDrive(drive, before.drive)) {
    // There and back again: nothing to undo.
    cancelDrag();
    return;
  }
  mark = null;
  tell();
  history().resume();
  if (drive === before.drive) return;
  // One step for the whole drag, put into history by hand: nobody who reads the document sees it go back and forth.
  documentStore.temporal.setState(({ pastStates }) => ({
    pastStates: [...pastStates, { drive: before.drive, label: before.label }].slice(-UNDO_STEPS),
    futureStates: [],
  }));
}

/** Takes the drag back (Escape, a lost pointer): the drive before it, and nothing to undo. */
export function cancelDrag(): void {
  if (!mark) return;
  const before = mark;
  mark = null;
  documentStore.setState({ drive: before.drive, solved: before.solved, label: before.label, was: null, refusal: null });
  history().resume();
}

export const isDragging = (): boolean => mark !== null;
export const isHeldByHand = (): boolean => mark?.isByHand === true;

/** One step back; in the middle of a drag that step is the drag. */
export function undo(): void {
  if (isDragging()) cancelDrag();
  else history().undo();
}

export function redo(): void {
  cancelDrag();
  history().redo();
}

export interface Opening {
  /** Opening is itself one undo step; else history begins anew. */
  readonly keepHistory?: boolean;
  readonly label?: string;
  /** What is asked in the place of the drive's own question. */
  readonly asked?: Question;
}

/** Opens another drive. */
export function openDrive(drive: Drive, options: Opening = {}): void {
  cancelDrag();
  const { opened } = documentStore.getState();
  const asked = options.asked ?? null;
  documentStore.setState({
    drive,
    solved: seen(solve(drive), false, asked),
    was: null,
    label: options.label ?? "",
    refusal: null,
    opened: opened + 1,
    isRevealed: false,
    asked,
  });
  if (!options.keepHistory) history().clear();
}

/** Solves the open drive anew, so that its sentences are said again: the reader has chosen other units. No step to undo. */
export function sayAnew(): void {
  const { drive, isRevealed, asked } = documentStore.getState();
  documentStore.setState({ solved: seen(solve(drive), isRevealed, asked) });
}

/** Shows what the drive's question hides, or hides it again. No step to undo. */
export function reveal(isRevealed: boolean): void {
  cancelDrag();
  const { drive, asked } = documentStore.getState();
  documentStore.setState({ solved: seen(solve(drive), isRevealed, asked), was: null, isRevealed });
}

/** Asks something else than the drive's own question, hidden at once; null: the drive's own again. No step to undo. */
export function askInstead(asked: Question | null): void {
  cancelDrag();
  const { drive } = documentStore.getState();
  documentStore.setState({ solved: seen(solve(drive), false, asked), was: null, isRevealed: false, asked });
}

/** The history as it stands; a drag that is under way counts as done. */
export function currentHistory(): History {
  const { drive, label } = documentStore.getState();
  const { pastStates, futureStates } = history();
  const present: Step = { drive, label };
  if (mark && mark.drive !== drive) {
    const before: Step = { drive: mark.drive, label: mark.label };
    return { past: [...(pastStates as Step[]), before].slice(-UNDO_STEPS), present, future: [] };
  }
  return { past: [...(pastStates as Step[])], present, future: [...(futureStates as Step[])].reverse() };
}

/** Opens the drive of a history, with all that undo and redo bring back. */
export function openHistory({ past, present, future }: History): void {
  openDrive(present.drive, { label: present.label });
  documentStore.temporal.setState({ pastStates: past.slice(-UNDO_STEPS), futureStates: [...future].reverse() });
}

/** Reads the document in a component, a moment late in a drag by hand; the selector must give a stable value. */
export const useDocument = <T>(selector: (state: DocumentState) => T): T => useStore(toldStore, selector);
