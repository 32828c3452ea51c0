/** Has drawings made on another thread: the newest order alone counts, and answers to older ones are dropped. */
import type { Answer, Order } from "./orders";
import { startDraftWorker } from "./start-draft-worker";

/** ms: a drawing that has been at work for longer is given up when another is wanted; starting a worker takes less. */
const PATIENCE = 250;

export interface Listener {
  readonly answer: (answer: Answer) => void;
  /** Nothing will come: the worker could not be had, or broke down. */
  readonly fail: () => void;
}

export interface Drafter {
  readonly ask: (order: Omit<Order, "count">) => void;
  /** Drops all that is under way. */
  readonly stop: () => void;
}

export function makeDrafter(listener: Listener, start: () => Worker = startDraftWorker): Drafter {
  let worker: Worker | null = null;
  let count = 0;
  /** The order at work, and when it began. */
  let busy: { readonly order: Order; readonly begun: number } | null = null;
  let next: Order | null = null;

  const end = (): void => {
    worker?.terminate();
    worker = null;
    busy = null;
  };
  const fail = (): void => {
    end();
    next = null;
    listener.fail();
  };
  const hear = (answer: Answer): void => {
    if (!busy || answer.count !== busy.order.count) return;
    const isLast = "wish" in answer && answer.wish === busy.order.wishes.length - 1;
    if (answer.count === count) listener.answer(answer);
    if (!isLast) return;
    busy = null;
    const waiting = next;
    next = null;
    if (waiting) begin(waiting);
  };
  const begin = (order: Order): void => {
    busy = { order, begun: performance.now() };
    try {
      if (!worker) {
        const own = start();
        worker = own;
        own.addEventListener("message", (event: MessageEvent<Answer>) => own === worker && hear(event.data));
        own.addEventListener("error", (event) => {
          event.preventDefault();
          if (own === worker) fail();
        });
      }
      worker.postMessage(order);
    } catch {
      fail();
    }
  };
  return {
    ask: (wanted) => {
      count += 1;
      const order = { ...wanted, count };
      if (busy && performance.now() - busy.begun > PATIENCE) end();
      if (busy) next = order;
      else begin(order);
    },
    stop: () => {
      count += 1;
      next = null;
      end();
    },
  };
}
