/** Keeping the drive in the browser's storage: after each edit, and never at the cost of the page. */
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { setTitle } from "../../src/engine/drive/commands/shaft";
import { newDrive } from "../../src/engine/drive/defaults";
import { parseDrive } from "../../src/engine/drive/parse";
import { autosave, cameUp, keepOpenDrive, recover } from "../../src/exchange/autosave";
import { noticeStore, notify } from "../../src/exchange/notices";
import { beginDrag, documentStore, endDrag, openDrive, perform, undo } from "../../src/store/document";

let stop = (): void => undefined;

beforeEach(() => {
  vi.useFakeTimers();
  openDrive(newDrive());
  notify(null);
});

afterEach(() => {
  stop();
  vi.useRealTimers();
});

const keeper = () => {
  const texts: string[] = [];
  const store = vi.fn(async ({ text }: { readonly text: string }) => {
    texts.push(text);
  });
  return { texts, store };
};

describe("autosave", () => {
  it("keeps the drive once, a little after the last of several edits", async () => {
    const { texts, store } = keeper();
    stop = autosave(store);
    perform(setTitle("one"), "title");
    await vi.advanceTimersByTimeAsync(300);
    perform(setTitle("two"), "title");
    await vi.advanceTimersByTimeAsync(1000);
    expect(texts.map((text) => parseDrive(text).drive?.title)).toEqual(["two"]);
  });

  it("keeps nothing while nothing is edited", async () => {
    const { store } = keeper();
    stop = autosave(store);
    await vi.advanceTimersByTimeAsync(5000);
    expect(store).not.toHaveBeenCalled();
  });

  it("waits for the end of a drag", async () => {
    const { texts, store } = keeper();
    stop = autosave(store);
    beginDrag();
    perform(setTitle("half-way"), "title");
    await vi.advanceTimersByTimeAsync(2000);
    expect(store).not.toHaveBeenCalled();
    perform(setTitle("there"), "title");
    endDrag();
    await vi.advanceTimersByTimeAsync(1000);
    expect(texts.map((text) => parseDrive(text).drive?.title)).toEqual(["there"]);
  });

  it("storage that never answers: one sentence, and the drive goes on", async () => {
    stop = autosave(() => new Promise(() => {}));
    perform(setTitle("kept nowhere yet"), "title");
    await vi.advanceTimersByTimeAsync(2000);
    expect(noticeStore.getState().notice).toBeNull();
    await vi.advanceTimersByTimeAsync(2000);
    expect(noticeStore.getState().notice?.text).toMatch(/storage does not answer.*save it as a file/);
    expect(documentStore.getState().drive.title).toBe("kept nowhere yet");
  });

  it.each([
    ["full", new DOMException("full", "QuotaExceededError"), /storage is full.*save it as a file/],
    ["forbidden", new DOMException("no", "SecurityError"), /does not let this page keep.*save it as a file/],
  ])("storage that is %s: one sentence, once, and the drive goes on", async (_what, error, sentence) => {
    const store = vi.fn(() => Promise.reject(error));
    stop = autosave(store);
    perform(setTitle("kept here alone"), "title");
    await vi.advanceTimersByTimeAsync(1000);
    expect(noticeStore.getState().notice?.text).toMatch(sentence);
    notify(null);
    perform(setTitle("and on"), "title");
    await vi.advanceTimersByTimeAsync(1000);
    expect(store).toHaveBeenCalledTimes(2);
    expect(noticeStore.getState().notice).toBeNull();
    expect(documentStore.getState().drive.title).toBe("and on");
  });

  it("keeps at once when asked, edited or not, and says whether it did", async () => {
    const { texts, store } = keeper();
    stop = autosave(store);
    expect(await keepOpenDrive()).toBe(true);
    perform(setTitle("at once"), "title");
    expect(await keepOpenDrive()).toBe(true);
    expect(texts.map((text) => parseDrive(text).drive?.title)).toEqual(["New drive", "at once"]);
  });

  it.each([
    ["refuses", () => Promise.reject(new Error("no"))],
    ["never answers", () => new Promise<void>(() => undefined)],
  ])("does not say that a drive is kept where the storage %s", async (_what, store) => {
    stop = autosave(store);
    const kept = keepOpenDrive();
    await vi.advanceTimersByTimeAsync(4000);
    expect(await kept).toBe(false);
  });

  it("asks before the page is left while the drive is kept nowhere", async () => {
    stop = autosave(() => Promise.reject(new Error("no")));
    const leave = () => {
      const event = new Event("beforeunload", { cancelable: true });
      window.dispatchEvent(event);
      return event.defaultPrevented;
    };
    expect(leave()).toBe(false);
    perform(setTitle("mine"), "title");
    await vi.advanceTimersByTimeAsync(1000);
    expect(leave()).toBe(true);
  });
});

describe("a drive from before", () => {
  const startNew = vi.fn();

  beforeEach(() => {
    vi.useRealTimers();
    sessionStorage.clear();
    localStorage.clear();
  });

  /** jsdom has no database, as a browser that forbids it: what the tab wrote on being left is all there is. */
  const leave = (title: string): void => {
    stop = autosave(() => new Promise(() => undefined));
    perform(setTitle(title), "title");
    window.dispatchEvent(new Event("beforeunload", { cancelable: true }));
    stop();
    openDrive(newDrive());
  };

  it("comes back where it was, with a notice that offers to begin anew", async () => {
    leave("Kite winch");
    expect(await recover(startNew)).toBe(true);
    expect(documentStore.getState().drive.title).toBe("Kite winch");
    expect(noticeStore.getState().notice?.text).toBe("Your drive from before is back.");
    noticeStore.getState().notice?.action?.run();
    expect(startNew).toHaveBeenCalledOnce();
  });

  it("is nothing to speak of on a first visit", async () => {
    expect(await recover(startNew)).toBe(false);
    expect(noticeStore.getState().notice).toBeNull();
  });

  it("never takes away what was begun while the storage was slow", async () => {
    leave("Kite winch");
    const coming = recover(startNew);
    perform(setTitle("Begun meanwhile"), "title");
    expect(await coming).toBe(false);
    expect(documentStore.getState().drive.title).toBe("Begun meanwhile");
    noticeStore.getState().notice?.action?.run();
    expect(documentStore.getState().drive.title).toBe("Kite winch");
    undo();
    expect(documentStore.getState().drive.title).toBe("Begun meanwhile");
  });

  it("stays closed after it stopped the page twice, and can be saved as a file", async () => {
    leave("Heavy drive");
    expect(await recover(startNew)).toBe(true);
    openDrive(newDrive());
    expect(await recover(startNew)).toBe(true);
    openDrive(newDrive());
    expect(await recover(startNew)).toBe(false);
    expect(noticeStore.getState().notice).toMatchObject({ tone: "alert", action: { words: "Save it as a file" } });
    expect(documentStore.getState().drive.title).toBe("New drive");
  });

  it("comes back again and again where the page came up well", async () => {
    leave("Kite winch");
    for (let visit = 0; visit < 4; visit++) {
      expect(await recover(startNew)).toBe(true);
      cameUp();
      openDrive(newDrive());
    }
  });
});
