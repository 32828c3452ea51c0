/**
 * A name that one tab at a time holds: by the browser's locks, which end with the tab however it ends; where there are none (a page
 * that did not come over https, an old browser) by asking the other tabs. Where neither is to be had every name counts as free:
 * what is written is then still guarded by `slots.ts`.
 */

export interface Held {
  readonly isMine: boolean;
  readonly release: () => void;
}

const NOBODY = (): void => undefined;
const FREE: Held = { isMine: true, release: NOBODY };
const TAKEN: Held = { isMine: false, release: NOBODY };

/** ms in which other tabs answer who holds a name. */
const ANSWER = 150;
const CHANNEL = "turnwise.tabs";

/**
 * Takes hold of a name, if no other tab holds it.
 * @param patience ms to wait for a tab that is just going: a page that is loaded anew may come before its old self has gone
 */
export const hold = (name: string, patience: number): Promise<Held> => holdWithin(name, patience, ANSWER);

/** Takes hold of a name that nobody else can know yet. */
export const holdFresh = (name: string): Promise<Held> => holdWithin(name, 0, 0);

const holdWithin = async (name: string, patience: number, answer: number): Promise<Held> => {
  const { locks } = navigator;
  if (!locks) return holdByAsking(name, answer);
  try {
    return await holdByLock(locks, name, patience);
  } catch {
    return holdByAsking(name, answer);
  }
};

const holdByLock = (locks: LockManager, name: string, patience: number): Promise<Held> =>
  new Promise((settle, fail) => {
    const waiting = new AbortController();
    const timer = setTimeout(() => waiting.abort(), patience);
    const granted = (lock: Lock | null): Promise<void> | undefined => {
      clearTimeout(timer);
      if (!lock) {
        settle(TAKEN);
        return;
      }
      return new Promise((release) => settle({ isMine: true, release }));
    };
    const options = patience > 0 ? { signal: waiting.signal } : { ifAvailable: true };
    locks.request(name, options, granted).catch((error: unknown) => {
      if (waiting.signal.aborted) settle(TAKEN);
      else fail(error);
    });
  });

const me = Math.random().toString(36).slice(2);

const holdByAsking = async (name: string, answer: number): Promise<Held> => {
  if (typeof BroadcastChannel === "undefined") return FREE;
  const channel = new BroadcastChannel(CHANNEL);
  let isHeld = false;
  let isMine = false;
  channel.onmessage = ({ data }: MessageEvent<{ ask?: string; held?: string; by: string }>) => {
    // Of two that ask at the same time, one has the smaller name.
    if (data.ask === name && (isMine || me < data.by)) channel.postMessage({ held: name, by: me });
    if (data.held === name && !isMine) isHeld = true;
  };
  channel.postMessage({ ask: name, by: me });
  if (answer > 0) await new Promise((waited) => setTimeout(waited, answer));
  if (isHeld) {
    channel.close();
    return TAKEN;
  }
  isMine = true;
  return { isMine: true, release: () => channel.close() };
};

/** Names that some tab holds now; null where that can't be told. */
export const heldNames = async (): Promise<ReadonlySet<string> | null> => {
  try {
    const { held = [] } = await navigator.locks.query();
    return new Set(held.flatMap(({ name }) => name ?? []));
  } catch {
    return null;
  }
};
