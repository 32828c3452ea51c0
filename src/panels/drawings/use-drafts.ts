/** Drawings in a component: what came last, how far the next have come, and what can't be drawn. */
import { useEffect, useRef, useState } from "react";
import { documentStore } from "../../store/document";
import { type Drafter, makeDrafter } from "./drafter";
import type { Answer, Draft, Order } from "./orders";

type Good = Exclude<Draft, { readonly trouble: string }>;

export interface Shown {
  /** The last that could be made of this drive. */
  readonly good: Good | null;
  /** Why the newest could not; null where it could. */
  readonly trouble: string | null;
}

export interface Drafts {
  /** By what was wished for; nothing where nothing has come yet. */
  readonly shown: ReadonlyMap<string, Shown>;
  /** Views drawn so far, of how many; null when nothing is under way. */
  readonly progress: { readonly done: number; readonly of: number } | null;
  readonly isFailed: boolean;
  /** Counts the drives opened: those of another are not shown. */
  readonly opened: number;
}

const nothing = (opened: number): Drafts => ({ shown: new Map(), progress: null, isFailed: false, opened });

function taken(drafts: Drafts, answer: Answer, wishes: Order["wishes"]): Drafts {
  if ("done" in answer) return { ...drafts, progress: { done: answer.done, of: answer.of } };
  const key = wishes[answer.wish]?.view ?? "";
  const shown = new Map(drafts.shown);
  const { draft } = answer;
  shown.set(
    key,
    "trouble" in draft
      ? { good: drafts.shown.get(key)?.good ?? null, trouble: draft.trouble }
      : { good: draft, trouble: null },
  );
  return { ...drafts, shown, progress: answer.wish === wishes.length - 1 ? null : drafts.progress };
}

/** `order` must stay the same as long as the same is wanted; null for nothing. */
export function useDrafts(order: Omit<Order, "count"> | null): Drafts & { readonly again: () => void } {
  const [drafts, setDrafts] = useState<Drafts>(() => nothing(documentStore.getState().opened));
  const [attempt, setAttempt] = useState(0);
  const drafter = useRef<Drafter | null>(null);
  const wishes = useRef<Order["wishes"]>([]);

  useEffect(() => {
    const made = makeDrafter({
      answer: (answer) => setDrafts((before) => taken(before, answer, wishes.current)),
      fail: () => setDrafts((before) => ({ ...before, progress: null, isFailed: true })),
    });
    drafter.current = made;
    return () => made.stop();
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt asks anew
  useEffect(() => {
    if (!order) {
      drafter.current?.stop();
      return;
    }
    const { opened } = documentStore.getState();
    wishes.current = order.wishes;
    setDrafts((before) => ({
      ...(before.opened === opened ? before : nothing(opened)),
      progress: { done: 0, of: 1 },
      isFailed: false,
    }));
    drafter.current?.ask(order);
  }, [order, attempt]);

  return { ...drafts, again: () => setAttempt(attempt + 1) };
}
