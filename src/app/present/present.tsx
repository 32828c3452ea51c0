/** A presentation: the bench over the whole page, a panel below it at a time, a bar that fades, ink, and the keys of a clicker. */
import { useEffect, useLayoutEffect, useRef, useState } from "react";
import { useShown } from "../../panels/workings/shown";
import { documentStore, useDocument } from "../../store/document";
import { lessonStore } from "../../store/lesson-state";
import { announce, setView, useView } from "../../store/view";
import { Guarded } from "../guarded";
import layout from "../layout.module.css";
import { LessonHere } from "../lesson/lesson-here";
import { ASIDES, Findings, Readouts, Workings } from "../regions";
import { shownTheme } from "../theme";
import { Bar } from "./bar";
import { Ink } from "./ink";
import css from "./present.module.css";
import { listenWhilePresenting } from "./present-keys";
import {
  begin,
  blackOut,
  clearInk,
  followLesson,
  type PanelName,
  presentStore,
  scrollWith,
  setInking,
  show,
  step,
  usePresent,
} from "./present-store";
import { stopPresenting } from "./presenting";
import { keepPage } from "./restore";
import { typeScale } from "./type-scale";

/** ms without any movement after which the bar and the pointer are away. */
const QUIET = 3000;

const TITLES = {
  bench: "Bench",
  lesson: "Lesson",
  readouts: "Readouts",
  workings: "Workings",
  findings: "Findings",
} as const;
const SHOWN = { lesson: LessonHere, readouts: Readouts, workings: Workings, findings: Findings } as const;

const titleOf = (panel: PanelName): string => {
  if (panel !== "aside") return TITLES[panel];
  const { aside } = presentStore.getState();
  return aside === null ? "" : ASIDES[aside].title;
};

const ACTS = {
  next: () => step(1, titleOf),
  previous: () => step(-1, titleOf),
  show: (panel: PanelName) => show(panel, titleOf(panel)),
  ink: () => setInking(!presentStore.getState().isInking),
  clear: clearInk,
  black: () => blackOut(!presentStore.getState().isBlack),
  theme: () => {
    const theme = shownTheme() === "dark" ? "light" : "dark";
    // For this presentation alone: it isn't remembered as the person's choice.
    setView({ theme });
    announce(`The ${theme} theme.`);
  },
  leave: stopPresenting,
} as const;
export type Acts = typeof ACTS;

const showNth = (n: number) => () => {
  const panel = presentStore.getState().panels[n];
  if (panel) ACTS.show(panel);
};

const KEYS = {
  PageDown: ACTS.next,
  ArrowRight: ACTS.next,
  PageUp: ACTS.previous,
  ArrowLeft: ACTS.previous,
  ".": ACTS.black,
  B: ACTS.black,
  I: ACTS.ink,
  C: ACTS.clear,
  D: ACTS.theme,
  ...Object.fromEntries([0, 1, 2, 3, 4, 5].map((n) => [String(n + 1), showNth(n)])),
  P: ACTS.leave,
  Escape: ACTS.leave,
};

export const Present = () => {
  useRoot();
  const isQuiet = useQuiet();
  const panel = usePresent((state) => state.panel);
  const isBlack = usePresent((state) => state.isBlack);
  return (
    <>
      <Panel key={panel} panel={panel} />
      <Ink />
      <Bar acts={ACTS} titleOf={titleOf} isQuiet={isQuiet} place={usePlace()} />
      {isBlack ? <div className={css.black} onPointerDown={() => blackOut(false)} /> : null}
    </>
  );
};

/** The panel of its kind below the bench; what stood beside the bench is shown by the layout where it is. */
const Panel = ({ panel }: { readonly panel: PanelName }) => {
  const box = useRef<HTMLElement>(null);
  const content = useRef<HTMLDivElement>(null);
  useLayoutEffect(() => {
    const { style } = document.documentElement;
    // The workings grow line by line: the bench then stays as large as it is.
    if (panel === "workings" || !content.current || typeof ResizeObserver === "undefined") return;
    const { current } = content;
    const follow = (): void =>
      style.setProperty("--content", `${Math.ceil(current.getBoundingClientRect().height) + 1}px`);
    const observer = new ResizeObserver(follow);
    observer.observe(current);
    return () => {
      observer.disconnect();
      style.removeProperty("--content");
    };
  }, [panel]);
  useEffect(() => {
    scrollWith(() => (panel === "aside" ? scrolledAside() : box.current));
    return () => scrollWith(() => null);
  }, [panel]);
  if (panel === "bench" || panel === "aside") return null;
  const Shown = SHOWN[panel];
  const title = TITLES[panel];
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what scrolls must be reachable by keyboard.
    <section ref={box} className={css.panel} aria-label={`${title}, presented`} tabIndex={0} data-presented>
      <div ref={content} className={css.large}>
        <h2 className="only-heard">{title}</h2>
        <Guarded region={title}>
          <Shown />
        </Guarded>
      </div>
    </section>
  );
};

function scrolledAside(): Element | null {
  const within = document.querySelectorAll(`.${layout.side} *, .${layout.sheet} *`);
  const isScrolled = (element: Element): boolean =>
    element.scrollHeight > element.clientHeight + 8 && /auto|scroll/.test(getComputedStyle(element).overflowY);
  return [...within].find(isScrolled) ?? null;
}

/** What the whole page has to know: that it presents, how large type is; and on leaving, how it was. */
function useRoot(): void {
  const panel = usePresent((state) => state.panel);
  const aside = useView((state) => state.aside);

  useLayoutEffect(() => {
    const bringBack = keepPage();
    const { documentElement: root } = document;
    const scale = (): void => {
      const size = typeScale(window.innerWidth, window.innerHeight);
      root.style.setProperty("--type-scale", String(size));
      setView({ typeScale: size });
    };
    begin();
    scale();
    document.getElementById("bench")?.focus();
    announce("Presenting. Page Down and Page Up go on and back, B blacks out, I is ink, Escape leaves.");
    const stopKeys = listenWhilePresenting(KEYS);
    // The browser's own way out of the full screen is a way out of this.
    const left = (): void => {
      if (document.fullscreenElement === null) stopPresenting();
    };
    window.addEventListener("resize", scale);
    document.addEventListener("fullscreenchange", left);
    return () => {
      window.removeEventListener("resize", scale);
      document.removeEventListener("fullscreenchange", left);
      stopKeys();
      delete root.dataset.presenting;
      root.style.removeProperty("--type-scale");
      setView({ typeScale: 1 });
      bringBack();
      announce("The presentation is over; the page is as it was.");
    };
  }, []);

  useLayoutEffect(() => {
    document.documentElement.dataset.presenting = panel === "bench" || panel === "aside" ? panel : "panel";
  }, [panel]);

  // Its own button puts it away.
  useEffect(() => {
    if (panel === "aside" && aside !== presentStore.getState().aside) ACTS.show("bench");
  }, [panel, aside]);

  // Another drive is told from its beginning; a lesson goes on over its own.
  useEffect(
    () =>
      documentStore.subscribe(({ opened }, before) => {
        if (opened !== before.opened && lessonStore.getState().lesson === null) stopPresenting();
      }),
    [],
  );
  useEffect(() => lessonStore.subscribe(followLesson), []);
}

/** Whether nothing has moved for a while. */
function useQuiet(): boolean {
  const [isQuiet, setQuiet] = useState(false);
  useEffect(() => {
    let timer = 0;
    const wake = (): void => {
      clearTimeout(timer);
      setQuiet(false);
      timer = window.setTimeout(() => setQuiet(true), QUIET);
    };
    wake();
    const moves = ["pointermove", "pointerdown", "focusin"] as const;
    for (const move of moves) window.addEventListener(move, wake);
    return () => {
      clearTimeout(timer);
      for (const move of moves) window.removeEventListener(move, wake);
    };
  }, []);
  useEffect(() => {
    document.documentElement.toggleAttribute("data-quiet", isQuiet);
    return () => document.documentElement.removeAttribute("data-quiet");
  }, [isQuiet]);
  return isQuiet;
}

/** "line 2 of 9", where there are lines. */
function usePlace(): string {
  const isWorkings = usePresent((state) => state.panel === "workings");
  const lines = useShown((state) => state.lines);
  const count = useShown((state) => state.count);
  const title = useDocument((state) => state.drive.title);
  return isWorkings && lines !== null && count > 0 ? `line ${lines} of ${count}` : title;
}
