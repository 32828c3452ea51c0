/** The thread's own time of script in the built page for each event of a sort: from a trace that the browser itself writes. */
import type { Browser, Page } from "playwright-core";

/** Fewer events than this tell nothing. */
const LEAST_EVENTS = 6;

interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  /** Microseconds: begin, length, and the thread's own part of that. */
  readonly ts: number;
  readonly dur?: number;
  readonly tdur?: number;
  readonly args?: { readonly data?: { readonly type?: string } };
}

const SCRIPT: ReadonlySet<string> = new Set([
  "EventDispatch",
  "FunctionCall",
  "FireAnimationFrame",
  "TimerFire",
  "RunMicrotasks",
  "FireIdleCallback",
]);

/** Script from each event of a sort up to the next one, ms of the thread's own time. What runs within another is counted with it. */
function scriptPerEvent(trace: readonly TraceEvent[], type: string): number[] {
  const events = trace.filter(({ name, args }) => name === "EventDispatch" && args?.data?.type === type);
  const { pid, tid } = events[0] ?? { pid: 0, tid: 0 };
  const scripts = trace
    .filter((event) => event.ph === "X" && event.pid === pid && event.tid === tid && SCRIPT.has(event.name))
    .sort((a, b) => a.ts - b.ts || (b.dur ?? 0) - (a.dur ?? 0));
  const times = events.map(() => 0);
  let [end, slot] = [0, -1];
  for (const { ts, dur = 0, tdur = 0 } of scripts) {
    if (ts < end) continue;
    end = ts + dur;
    while (slot + 1 < events.length && (events[slot + 1]?.ts ?? 0) <= ts) slot++;
    if (slot >= 0) times[slot] = (times[slot] ?? 0) + tdur / 1000;
  }
  // The last one has no next.
  return times.slice(0, -1);
}

/** The value below which that part of the list lies. */
export const part = (list: readonly number[], of: number): number =>
  [...list].sort((a, b) => a - b)[Math.min(list.length - 1, Math.floor(list.length * of))] ?? Number.NaN;

/** Script for each event of a sort while `act` goes on, ms. Throws where hardly any was seen. */
export async function traced(browser: Browser, page: Page, type: string, act: () => Promise<void>): Promise<number[]> {
  await browser.startTracing(page, { categories: ["devtools.timeline"] });
  await act();
  const { traceEvents } = JSON.parse((await browser.stopTracing()).toString()) as { traceEvents: TraceEvent[] };
  const times = scriptPerEvent(traceEvents, type);
  if (times.length < LEAST_EVENTS) throw new Error(`Only ${times.length} events of ${type} were seen.`);
  return times;
}
