/** Stands in for the worker that draws, where there are none: the same drawing, a turn later, on this thread. */
import { draft } from "../../src/panels/drawings/drafting";
import type { Order } from "../../src/panels/drawings/orders";

class WorkerHere extends EventTarget {
  #isOver = false;
  postMessage(order: Order): void {
    setTimeout(() => {
      if (!this.#isOver) draft(order, (data) => this.dispatchEvent(new MessageEvent("message", { data })));
    });
  }
  terminate(): void {
    this.#isOver = true;
  }
}

globalThis.Worker = WorkerHere as unknown as typeof Worker;
