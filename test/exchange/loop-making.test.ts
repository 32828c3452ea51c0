import { describe, expect, it } from "vitest";
import { gifWriter } from "../../src/exchange/loop-gif";
import { type LoopAnswer, type LoopAsk, makeLoop } from "../../src/exchange/loop-making";

const [WIDTH, HEIGHT, FRAMES] = [8, 6, 5];
const order = { width: WIDTH, height: HEIGHT, delay: 4, isTransparent: false };
const picture = (k: number): Uint8ClampedArray => new Uint8ClampedArray(4 * WIDTH * HEIGHT).fill(50 * k + 5);

/** Writes as the worker does, a turn later, on this thread; breaks down at picture `broken`. */
class WriterHere extends EventTarget {
  isOver = false;
  count = 0;
  #writer: ReturnType<typeof gifWriter> | null = null;
  constructor(readonly broken = -1) {
    super();
  }
  postMessage(ask: LoopAsk): void {
    setTimeout(() => {
      if (this.isOver) return;
      if ("picture" in ask && this.count++ === this.broken) {
        this.dispatchEvent(new Event("error"));
        return;
      }
      this.dispatchEvent(new MessageEvent<LoopAnswer>("message", { data: this.#answer(ask) }));
    });
  }
  #answer(ask: LoopAsk): LoopAnswer {
    if ("sample" in ask) this.#writer = gifWriter(ask.order, ask.sample);
    else if ("picture" in ask) this.#writer?.add(ask.picture);
    else return { file: this.#writer?.finish() ?? null };
    return { done: true };
  }
  terminate(): void {
    this.isOver = true;
  }
}

function making(take: (k: number) => Uint8ClampedArray = picture, writer = new WriterHere()) {
  const stop = new AbortController();
  const told: number[] = [];
  const file = makeLoop(
    { order, frames: FRAMES, take, progress: (done) => told.push(done), signal: stop.signal },
    () => writer as unknown as Worker,
  );
  return { file, stop, told, writer };
}

describe("a loop that is written on another thread", () => {
  it("comes as a GIF, and tells of each picture", async () => {
    const { file, told, writer } = making();
    const blob = await file;
    expect(blob.type).toBe("image/gif");
    expect(blob.size).toBeGreaterThan(50);
    expect(told).toEqual([1, 2, 3, 4, 5]);
    expect(writer.isOver).toBe(true);
  });

  it("that is stopped ends at once, and so does its worker", async () => {
    const { file, stop, told, writer } = making((k) => {
      if (k === 3) setTimeout(() => stop.abort(new Error("enough")));
      return picture(k);
    });
    await expect(file).rejects.toThrow("enough");
    expect(told.length).toBeLessThan(FRAMES);
    expect(writer.isOver).toBe(true);
  });

  it("fails with what a picture fails with, and where the worker breaks down", async () => {
    const lost = making((k) => {
      if (k === 4) throw new Error("lost");
      return picture(k);
    });
    await expect(lost.file).rejects.toThrow("lost");
    expect(lost.writer.isOver).toBe(true);
    const broken = making(picture, new WriterHere(2));
    await expect(broken.file).rejects.toThrow("broke down");
    expect(broken.writer.isOver).toBe(true);
  });
});
