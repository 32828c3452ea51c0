/** Drawings on another thread: the newest order wins, older answers are dropped, what takes long is given up, and a breakdown is told. */
import { afterEach, describe, expect, it, vi } from "vitest";
import { parseDrive } from "../../src/engine/drive/parse";
import { FILE_UNITS } from "../../src/engine/units/choice";
import { makeDrafter } from "../../src/panels/drawings/drafter";
import type { Answer, Order } from "../../src/panels/drawings/orders";
import { MIXER } from "./support";

const { drive } = parseDrive(JSON.stringify(MIXER));
if (!drive) throw new Error("no drive");
const order: Omit<Order, "count"> = {
  drive,
  units: FILE_UNITS,
  wishes: [{ view: "front", angle: "first", gears: "simplified" }],
  form: "sheet",
};

/** A worker whose answers the test gives. */
class Hand extends EventTarget {
  readonly orders: Order[] = [];
  isOver = false;
  postMessage(order: Order): void {
    this.orders.push(order);
  }
  terminate(): void {
    this.isOver = true;
  }
  answer(count: number): void {
    this.dispatchEvent(new MessageEvent("message", { data: { count, wish: 0, draft: { trouble: `${count}` } } }));
  }
}

function desk() {
  const hands: Hand[] = [];
  const heard: Answer[] = [];
  const fail = vi.fn();
  const drafter = makeDrafter({ answer: (answer) => heard.push(answer), fail }, () => {
    const hand = new Hand();
    hands.push(hand);
    return hand as unknown as Worker;
  });
  return { hands, heard, fail, drafter };
}

afterEach(() => vi.useRealTimers());

describe("a drafter", () => {
  it("keeps only the newest of what is ordered meanwhile, and drops the answer to what is old", () => {
    const { hands, heard, drafter } = desk();
    for (let i = 0; i < 4; i++) drafter.ask(order);
    const [hand] = hands;
    expect(hand?.orders.map(({ count }) => count)).toEqual([1]);
    hand?.answer(1);
    expect(heard).toEqual([]);
    expect(hand?.orders.map(({ count }) => count)).toEqual([1, 4]);
    hand?.answer(4);
    expect(heard).toEqual([{ count: 4, wish: 0, draft: { trouble: "4" } }]);
    expect(hands).toHaveLength(1);
  });

  it("gives up what has been at work for long, and begins anew", () => {
    vi.useFakeTimers({ toFake: ["performance"] });
    const { hands, heard, drafter } = desk();
    drafter.ask(order);
    vi.advanceTimersByTime(1000);
    drafter.ask(order);
    expect(hands.map(({ isOver }) => isOver)).toEqual([true, false]);
    hands[0]?.answer(1);
    hands[1]?.answer(2);
    expect(heard).toHaveLength(1);
  });

  it("tells once that the worker broke down, and has another when asked again", () => {
    const { hands, fail, heard, drafter } = desk();
    drafter.ask(order);
    hands[0]?.dispatchEvent(new Event("error", { cancelable: true }));
    expect(fail).toHaveBeenCalledTimes(1);
    expect(hands[0]?.isOver).toBe(true);
    drafter.ask(order);
    hands[1]?.answer(2);
    expect(heard).toHaveLength(1);
  });

  it("says nothing any more once it is stopped", () => {
    const { hands, heard, drafter } = desk();
    drafter.ask(order);
    drafter.stop();
    expect(hands[0]?.isOver).toBe(true);
    hands[0]?.answer(1);
    expect(heard).toEqual([]);
  });
});
