/** What goes on while changes are looked for: the ghost on the bench, another shaft picked meanwhile, and the search itself. */
import { useEffect, useState } from "react";
import type { Change } from "../../engine/wishes/change";
import { documentStore } from "../../store/document";
import { type Asking, announce, setView, viewStore } from "../../store/view";
import { tryEdit } from "../edit";

export const leaveAsking = (): void => setView({ asking: null, ghost: null });

/** What of the drive that a change gives the bench draws as a ghost: all that is new, moved or cut anew; else the shaft asked about. */
function ghostOf({ solved, difference }: Change, shaft: string) {
  const shafts = [...difference.newShafts, ...difference.moved];
  const gears = [...difference.newGears, ...difference.recut, ...difference.slid];
  return { solved, shafts: shafts.length + gears.length > 0 ? shafts : [shaft], gears };
}

/** The change that is looked at stands on the bench, as long as it is. */
export function useShown(shaft: string): (change: Change | null) => void {
  const [shown, setShown] = useState<Change | null>(null);
  useEffect(() => {
    setView({ ghost: shown && ghostOf(shown, shaft) });
  }, [shown, shaft]);
  useEffect(() => () => setView({ ghost: null }), []);
  // A ghost of a drive that is no more would mislead.
  useEffect(
    () =>
      documentStore.subscribe((state, before) => {
        if (state.drive !== before.drive) setShown(null);
      }),
    [],
  );
  return setShown;
}

/** Makes a change as one undo step and says so; null, or why it could not be made. */
export function makeChange(change: Pick<Change, "edit" | "title" | "sentence" | "also">): string | null {
  const refused = tryEdit(change.edit, change.title);
  if (refused !== null) return refused;
  leaveAsking();
  announce([`Done: ${change.title}.`, change.sentence, ...change.also].join(" "));
  return null;
}

/** What `find` finds, looked for after the page has shown what was asked; null until then, or where nothing is asked. */
export function useAnswer<T>(find: (() => T) | null): T | null {
  const [found, setFound] = useState<{ readonly of: (() => T) | null; readonly answer: T | null }>({
    of: null,
    answer: null,
  });
  useEffect(() => {
    if (!find) return;
    const timer = setTimeout(() => setFound({ of: find, answer: find() }));
    return () => clearTimeout(timer);
  }, [find]);
  return find && found.of === find ? found.answer : null;
}

/** Another shaft picked on the bench or in the list is the one to ask about; while joining, the one to join with. */
export function useFollowPicked(): void {
  useEffect(
    () =>
      viewStore.subscribe(({ selection, asking }, before) => {
        if (!asking || !selection || selection === before.selection) return;
        const { drive } = documentStore.getState();
        const shaft =
          selection.kind === "shaft"
            ? selection.id
            : selection.kind === "gear"
              ? drive.gears.find(({ id }) => id === selection.id)?.shaft
              : undefined;
        const next = shaft === undefined ? null : pickedWhile(asking, shaft);
        if (next) setView({ asking: next });
      }),
    [],
  );
}

function pickedWhile(asking: Asking, shaft: string): Asking | null {
  if (asking.kind === "wish" && shaft !== asking.shaft) return { kind: "wish", shaft };
  if (asking.kind === "join" && shaft !== asking.shaft && shaft !== asking.to) return { ...asking, to: shaft };
  return null;
}
