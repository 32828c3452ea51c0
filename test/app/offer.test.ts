/** The offer of a newer version waits for its turn among the notices. */
import { afterEach, beforeEach, expect, it, vi } from "vitest";
import { offerWhenFree } from "../../src/app/versions/offer";
import { newDrive } from "../../src/engine/drive/defaults";
import { type Notice, noticeStore, notify } from "../../src/exchange/notices";
import { beginDrag, endDrag, openDrive } from "../../src/store/document";

const OFFER: Notice = { tone: "polite", text: "There is a new version." };
const shown = (): string | undefined => noticeStore.getState().notice?.text;
const wait = (ms: number): Promise<unknown> => vi.advanceTimersByTimeAsync(ms);

beforeEach(() => {
  vi.useFakeTimers();
  openDrive(newDrive());
  notify(null);
});
afterEach(() => vi.useRealTimers());

it("is shown at once where nothing else is", () => {
  offerWhenFree(OFFER);
  expect(shown()).toBe(OFFER.text);
});

it("waits for an alert to be answered, however long that takes", async () => {
  notify({ tone: "alert", text: "The storage is full." });
  offerWhenFree(OFFER);
  await wait(600_000);
  expect(shown()).toBe("The storage is full.");
  notify(null);
  await wait(2000);
  expect(shown()).toBe(OFFER.text);
});

it("takes the place of a polite notice when there was time to read it, and not before", async () => {
  notify({ tone: "polite", text: "Your drive from before is back." });
  offerWhenFree(OFFER);
  await wait(5000);
  expect(shown()).toBe("Your drive from before is back.");
  await wait(7000);
  expect(shown()).toBe(OFFER.text);
});

it("comes back where another notice took its place, and stays away once it was closed", async () => {
  offerWhenFree(OFFER);
  notify({ tone: "alert", text: "This file is a picture." });
  await wait(2000);
  notify(null);
  await wait(2000);
  expect(shown()).toBe(OFFER.text);
  notify(null);
  await wait(600_000);
  expect(shown()).toBeUndefined();
});

it("never comes in the middle of a drag", async () => {
  beginDrag();
  offerWhenFree(OFFER);
  await wait(5000);
  expect(shown()).toBeUndefined();
  endDrag();
  await wait(2000);
  expect(shown()).toBe(OFFER.text);
});
