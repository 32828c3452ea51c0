import { type ComponentType, useEffect, useState } from "react";
import css from "./bench-slot.module.css";
import { loadBench } from "./regions";

type Loading =
  | { readonly at: "waiting"; readonly attempt: number }
  | { readonly at: "failed"; readonly attempt: number };

/** The bench, fetched apart from the page so that the panels are there first; a calm placeholder stands until then. */
export const BenchSlot = () => {
  const [Bench, setBench] = useState<ComponentType | null>(null);
  const [loading, setLoading] = useState<Loading>({ at: "waiting", attempt: 0 });
  const { attempt } = loading;

  useEffect(() => {
    let gone = false;
    // A browser may remember that a module failed to come; after the first attempt only a new page asks again.
    if (attempt > 1) window.location.reload();
    loadBench().then(
      (loaded) => gone || setBench(() => loaded),
      () => gone || setLoading({ at: "failed", attempt }),
    );
    return () => {
      gone = true;
    };
  }, [attempt]);

  if (Bench) return <Bench />;
  if (loading.at === "waiting") return <p className={css.waiting}>The bench is on its way; the panels work already.</p>;
  return (
    <div role="alert" className={css.failed}>
      <p>The bench could not be loaded. The panels work without it.</p>
      <button type="button" onClick={() => setLoading({ at: "waiting", attempt: attempt + 1 })}>
        Load the bench again
      </button>
    </div>
  );
};
