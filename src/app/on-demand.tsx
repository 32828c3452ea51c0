import { type ComponentType, type ReactNode, useEffect, useState } from "react";
import css from "./on-demand.module.css";

export interface OnDemandProps {
  readonly load: () => Promise<ComponentType>;
  readonly words: Words;
}

interface Words {
  /** While it is on its way. */
  readonly waiting: string;
  /** When it did not come: what, and what works all the same. */
  readonly failed: string;
  /** On the button that asks for it again. */
  readonly again: string;
}

/** What has come once is there at once from then on. */
const come = new Map<OnDemandProps["load"], ComponentType>();

/**
 * A region whose code comes when it is first shown, so that the page starts without it. Says so while it waits, and offers to ask
 * again where it did not come. `load` must be the same function at every rendering.
 */
export function OnDemand({ load, words }: OnDemandProps): ReactNode {
  const [Content, setContent] = useState<ComponentType | undefined>(() => come.get(load));
  const [isFailed, setFailed] = useState(false);
  /** Counts from 0; each asks once. */
  const [attempt, setAttempt] = useState(0);
  const isThere = Content !== undefined;

  // biome-ignore lint/correctness/useExhaustiveDependencies: each attempt asks anew
  useEffect(() => {
    if (isThere) return;
    let gone = false;
    load().then(
      (content) => {
        come.set(load, content);
        if (!gone) setContent(() => content);
      },
      () => gone || setFailed(true),
    );
    return () => {
      gone = true;
    };
  }, [attempt, isThere, load]);

  if (Content) return <Content />;
  if (!isFailed) return <p className={css.waiting}>{words.waiting}</p>;
  return (
    <div role="alert" className={css.failed}>
      <p>{words.failed}</p>
      <button
        type="button"
        onClick={() => {
          // A browser may remember that a file failed to come: after the second time only a new page asks again.
          if (attempt > 0) window.location.reload();
          setFailed(false);
          setAttempt(attempt + 1);
        }}
      >
        {words.again}
      </button>
    </div>
  );
}
