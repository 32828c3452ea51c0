import { type ComponentType, useEffect, useState } from "react";
import css from "./bench-slot.module.css";
import { loadBench } from "./regions";

interface Loading {
  readonly failed: boolean;
  /** Counts from 0; each asks for the bench once. */
  readonly attempt: number;
}

/** The bench, fetched apart from the page so that the panels are there first; a calm placeholder stands until then. */
export const BenchSlot = () => {
  const [Bench, setBench] = useState<ComponentType | null>(null);
  const [loading, setLoading] = useState<Loading>({ failed: false, attempt: 0 });
  const { attempt } = loading;

  useEffect(() => {
    let gone = false;
    loadBench().then(
      (loaded) => gone || setBench(() => loaded),
      () => gone || setLoading({ failed: true, attempt }),
    );
    return () => {
      gone = true;
    };
  }, [attempt]);

  if (Bench) return <Bench />;
  if (!loading.failed) return <p className={css.waiting}>The bench is on its way; the panels work already.</p>;
  return (
    <div role="alert" className={css.failed}>
      <p>The bench could not be loaded. The panels work without it.</p>
      <button
        type="button"
        onClick={() => {
          // A browser may remember that a file failed to come: after the second time only a new page asks again.
          if (attempt > 0) window.location.reload();
          else setLoading({ failed: false, attempt: attempt + 1 });
        }}
      >
        Load the bench again
      </button>
    </div>
  );
};
