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
import { Tabs } from "radix-ui";
import { type ReactNode, useState } from "react";
import { useDocument } from "../store/document";
import { setView, useView, type ViewState, viewStore } from "../store/view";
import { ErrorBoundary } from "./error-boundary";
import { FirstMinute } from "./first-minute/first-minute";
import css from "./layout.module.css";
import { AddStage, Bench, Findings, PartsList, Readouts, Transport, Views, Workings } from "./regions";

export const Guarded = ({ region, children }: { readonly region: string; readonly children: ReactNode }) => {
  const drive = useDocument((state) => state.drive);
  return (
    <ErrorBoundary region={region} resetOn={drive}>
      {children}
    </ErrorBoundary>
  );
};

/** The findings' name with how many there are. */
export const useFindingsName = (): string => {
  const count = useDocument((state) => state.solved.findings.length);
  return count > 0 ? `Findings (${count})` : "Findings";
};

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

export const BenchRegion = () => (
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
    </div>
    <div className={css.transport}>
      <Guarded region="The transport bar">
        <Transport />
      </Guarded>
    </div>
    <Guarded region="The first minute">
      <FirstMinute />
    </Guarded>
  </main>
);

const SIDE_TABS = ["workings", "findings"] as const;

export const SideRegion = () => {
  const open = useView((state) => state.panels.side);
  const tab = useView((state) => state.sideTab);
  const adding = useView((state) => state.adding !== null);
  const findings = useFindingsName();
  const names = { workings: "Workings", findings };
  const show = (wanted: ViewState["sideTab"]) => setView({ sideTab: wanted });
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
  const folding = (
    <FoldButton
      what="workings and findings"
      open={open}
      fold={(wanted) => foldPanel("side", wanted)}
      icons={[PanelRightOpen, PanelRightClose]}
    />
  );
  if (!open) {
    return (
      <aside className={css.side} aria-label="Workings and findings">
        <div className={css.bar}>{folding}</div>
        {SIDE_TABS.map((name) => (
          <button
            key={name}
            type="button"
            className={css.spine}
            onClick={() => {
              show(name);
              foldPanel("side", true);
            }}
          >
            {names[name]}
          </button>
        ))}
      </aside>
    );
  }
  return (
    <aside className={css.side} aria-label="Workings and findings">
      <Tabs.Root
        className={css.tabs}
        value={tab}
        onValueChange={(value) => show(value === "findings" ? "findings" : "workings")}
      >
        <div className={css.bar}>
          <Tabs.List className={css.tabList} aria-label="Workings and findings">
            {SIDE_TABS.map((name) => (
              <Tabs.Trigger key={name} className={css.tab} value={name}>
                {names[name]}
              </Tabs.Trigger>
            ))}
          </Tabs.List>
          {folding}
        </div>
        <Tabs.Content className={css.scroll} value="workings">
          <h2 className="only-heard">Workings</h2>
          <Guarded region="The workings">
            <Workings />
          </Guarded>
        </Tabs.Content>
        <Tabs.Content className={css.scroll} value="findings">
          <h2 className="only-heard">Findings</h2>
          <Guarded region="The findings">
            <Findings />
          </Guarded>
        </Tabs.Content>
      </Tabs.Root>
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
