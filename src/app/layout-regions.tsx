/** The regions of the page on a desk screen; each is guarded by itself and can be folded where there is a fold. */
import {
  type LucideIcon,
  PanelBottomClose,
  PanelBottomOpen,
  PanelLeftClose,
  PanelLeftOpen,
  PanelRightClose,
  PanelRightOpen,
} from "lucide-react";
import { useLayoutEffect, useRef, useState } from "react";
import { coverBench } from "../store/growing";
import { setView, useView, type ViewState, viewStore } from "../store/view";
import { useFindingsName } from "./findings-name";
import { FirstVisit } from "./first-minute/first-visit-slot";
import { Guarded } from "./guarded";
import css from "./layout.module.css";
import { OnDemand } from "./on-demand";
import { AddStage, Answers, ASIDES, Bench, Grow, PartsList, Readouts, Transport, Views } from "./regions";

const foldPanel = (panel: keyof ViewState["panels"], open: boolean): void =>
  setView({ panels: { ...viewStore.getState().panels, [panel]: open } });

interface FoldProps {
  readonly what: string;
  readonly open: boolean;
  readonly fold: (open: boolean) => void;
  readonly icons: readonly [opens: LucideIcon, closes: LucideIcon];
}

const FoldButton = ({ what, open, fold, icons: [Opens, Closes] }: FoldProps) => {
  const words = `${open ? "Fold" : "Unfold"} the ${what}`;
  return (
    <button type="button" className={css.fold} aria-expanded={open} title={words} onClick={() => fold(!open)}>
      {open ? <Closes aria-hidden size={18} /> : <Opens aria-hidden size={18} />}
      <span className="only-heard">{words}</span>
    </button>
  );
};

export const PartsRegion = () => {
  const open = useView((state) => state.panels.parts);
  return (
    <aside className={css.parts} aria-label="Parts list" id="parts" tabIndex={-1}>
      <div className={css.bar}>
        {open ? <h2>Parts list</h2> : null}
        <FoldButton
          what="parts list"
          open={open}
          fold={(wanted) => foldPanel("parts", wanted)}
          icons={[PanelLeftOpen, PanelLeftClose]}
        />
      </div>
      {open ? (
        <div className={css.scroll}>
          <Guarded region="The parts list">
            <PartsList />
          </Guarded>
        </div>
      ) : (
        <button type="button" className={css.spine} onClick={() => foldPanel("parts", true)}>
          Parts list
        </button>
      )}
    </aside>
  );
};

export const BenchRegion = ({ phone }: { readonly phone: boolean }) => (
  <main className={css.bench} id="bench" tabIndex={-1} aria-label="Bench">
    <div className={css.views}>
      <Guarded region="The choice of views">
        <Views />
      </Guarded>
    </div>
    <div className={css.stage}>
      <Guarded region="The bench">
        <Bench />
      </Guarded>
      {phone ? null : <GrowHere />}
    </div>
    <div className={css.transport}>
      <Guarded region="The transport bar">
        <Transport />
      </Guarded>
    </div>
    <Guarded region="The first minute">
      <FirstVisit />
    </Guarded>
  </main>
);

/** The choices at a `+` on the bench, at its right, where the eye leaves room for them. */
const GrowHere = () => {
  const isOpen = useView(({ adding }) => adding?.grow !== undefined);
  const box = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    coverBench(isOpen ? (box.current?.offsetWidth ?? 0) : 0);
    return () => coverBench(0);
  }, [isOpen]);
  if (!isOpen) return null;
  return (
    <div ref={box} className={css.grow}>
      <Guarded region="What grows here">
        <Grow />
      </Guarded>
    </div>
  );
};

const loadSidePanel = async () => (await import("./side-panel")).SidePanel;

const SIDE_WORDS = {
  waiting: "The panel is on its way.",
  failed: "The panel could not be loaded. Everything else works without it.",
  again: "Load the panel again",
};

const SidePanel = () => <OnDemand load={loadSidePanel} words={SIDE_WORDS} />;

export const SideRegion = () => {
  const open = useView((state) => state.panels.side);
  const adding = useView((state) => state.adding !== null && !state.adding.grow);
  const asking = useView((state) => state.asking !== null);
  const aside = useView((state) => state.aside);
  const findings = useFindingsName();
  const region = useRef<HTMLElement>(null);
  if (adding) {
    return (
      <aside className={css.side} aria-label="Add a stage">
        <div className={css.scroll}>
          <Guarded region="Adding a stage">
            <AddStage />
          </Guarded>
        </div>
      </aside>
    );
  }
  if (asking) {
    return (
      <aside className={css.side} aria-label="Changes">
        <div className={css.scroll}>
          <Guarded region="Looking for changes">
            <Answers />
          </Guarded>
        </div>
      </aside>
    );
  }
  if (aside) {
    const { title, Panel } = ASIDES[aside];
    return (
      <aside className={css.side} aria-label={title}>
        <Guarded key={aside} region={title}>
          <Panel />
        </Guarded>
      </aside>
    );
  }
  const unfold = (sideTab: ViewState["sideTab"]): void => {
    setView({ sideTab });
    foldPanel("side", true);
    // What was pressed goes: the focus stays in the region, right before the tabs.
    region.current?.querySelector("button")?.focus();
  };
  return (
    <aside ref={region} className={css.side} aria-label="Workings and findings">
      <FoldButton
        what="workings and findings"
        open={open}
        fold={(wanted) => foldPanel("side", wanted)}
        icons={[PanelRightOpen, PanelRightClose]}
      />
      {open ? (
        <Guarded region="The workings and findings">
          <SidePanel />
        </Guarded>
      ) : (
        <>
          <button type="button" className={css.spine} onClick={() => unfold("workings")}>
            Workings
          </button>
          <button type="button" className={css.spine} onClick={() => unfold("findings")}>
            {findings}
          </button>
        </>
      )}
    </aside>
  );
};

export const ReadoutsRegion = () => {
  const [open, setOpen] = useState(true);
  return (
    <div className={css.readouts}>
      <FoldButton what="readouts" open={open} fold={setOpen} icons={[PanelBottomOpen, PanelBottomClose]} />
      {open ? (
        <div className={css.strip}>
          <Guarded region="The readouts">
            <Readouts />
          </Guarded>
        </div>
      ) : (
        <button type="button" className={css.shelf} onClick={() => setOpen(true)}>
          Readouts
        </button>
      )}
    </div>
  );
};
