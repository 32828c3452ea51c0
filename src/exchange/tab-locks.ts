/**
 * A name that one tab at a time holds: by the browser's locks, which end with the tab however it ends, and by asking: a tab answers for
 * the names that it holds. The answer tells a tab that lives from one that is just going, whose lock is soon free; and where there are
 * no locks (a page that did not come over https, an old browser) it alone decides. Where neither is to be had every name counts as
 * free: what is written is then still guarded by `slots.ts`.
 */

export interface Held {
  readonly isMine: boolean;
  readonly release: () => void;
}

const TAKEN: Held = { isMine: false, release: () => undefined };

/** ms in which a living tab answers, where the answers alone decide. */
const ANSWER = 150;
/** ms to wait for a lock whose holder does not answer: an old self that is going, or a tab that the browser has put to sleep. */
const GOING = 3000;
const CHANNEL = "turnwise.tabs";

interface Message {
  readonly ask?: string;
  readonly held?: string;
  /** Which page sends it. */
  readonly by: string;
}

const me = Math.random().toString(36).slice(2);

/** Who else holds a name, asked and answered. */
class Voice {
  private readonly channel = typeof BroadcastChannel === "undefined" ? null : new BroadcastChannel(CHANNEL);
  private isMine = false;
  private hear = (): void => undefined;
  /** Settles once a living tab says that it holds the name. */
  readonly answered: Promise<void> = new Promise((settle) => {
    this.hear = settle;
  });

  constructor(name: string) {
    if (!this.channel) return;
    this.channel.onmessage = ({ data }: MessageEvent<Message>) => {
      if (data.by === me) return;
      // Of two that ask at the same time, one has the smaller name.
      if (data.ask === name && (this.isMine || (!navigator.locks && me < data.by))) this.send({ held: name, by: me });
      if (data.held === name && !this.isMine) this.hear();
    };
    this.send({ ask: name, by: me });
  }
  private send(message: Message): void {
    this.channel?.postMessage(message);
  }
  /** Answers for the name from now on. */
  take(): void {
    this.isMine = true;
  }
  close(): void {
    this.channel?.close();
  }
}

/** Takes hold of a name, if no other tab holds it. */
export const hold = (name: string): Promise<Held> => holdWithin(name, ANSWER);

/** Takes hold of a name that nobody else can know yet. */
export const holdFresh = (name: string): Promise<Held> => holdWithin(name, 0);

const holdWithin = async (name: string, answer: number): Promise<Held> => {
  const voice = new Voice(name);
  const free = await holdByLock(name, voice).catch(() => holdByAnswer(voice, answer));
  if (!free) {
    voice.close();
    return TAKEN;
  }
  voice.take();
  const release = (): void => {
    voice.close();
    free();
  };
  return { isMine: true, release };
};

/** What gives the lock back, or null where another tab has it. Rejects where the browser has no locks. */
const holdByLock = (name: string, voice: Voice): Promise<(() => void) | null> =>
  new Promise((settle, fail) => {
    const { locks } = navigator;
    if (!locks) throw new Error("This browser has no locks.");
    const waiting = new AbortController();
    // A browser may leave a request that was aborted early pending for good, so its own answer is not waited for.
    const giveUp = (): void => {
      clearTimeout(timer);
      settle(null);
      waiting.abort();
    };
    const timer = setTimeout(giveUp, GOING);
    void voice.answered.then(giveUp);
    const granted = (): Promise<void> | undefined => {
      if (waiting.signal.aborted) return undefined;
      clearTimeout(timer);
      return new Promise((free) => settle(free));
    };
    locks.request(name, { signal: waiting.signal }, granted).catch((error: unknown) => {
      clearTimeout(timer);
      if (!waiting.signal.aborted) fail(error);
    });
  });

const holdByAnswer = async (voice: Voice, patience: number): Promise<(() => void) | null> => {
  const waited = new Promise<boolean>((settle) => setTimeout(() => settle(true), patience));
  const isFree = patience === 0 || (await Promise.race([waited, voice.answered.then(() => false)]));
  return isFree ? () => undefined : null;
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
