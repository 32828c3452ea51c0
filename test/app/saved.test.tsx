/** The dialog of saved drives, by what a person sees and presses; the browser's database is played by fake-indexeddb. */
import "fake-indexeddb/auto";
import { act, render, screen, waitFor, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { IDBFactory } from "fake-indexeddb";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { SavedBody } from "../../src/app/saved/saved-body";
import { savedStore } from "../../src/app/saved/saved-store";
import { contentWords, quoted, roomWords, sizeWords } from "../../src/app/saved/words";
import { setTitle } from "../../src/engine/drive/commands/shaft";
import { newDrive } from "../../src/engine/drive/defaults";
import { writeDrive } from "../../src/engine/drive/write";
import { closeSaved } from "../../src/exchange/saved-database";
import { addSaved, listSaved, readSaved, saveOver } from "../../src/exchange/saved-drives";
import { writeDrives } from "../../src/exchange/saved-file";
import { currentLink } from "../../src/exchange/saved-link";
import { documentStore, openDrive, perform, undo } from "../../src/store/document";

const title = (): string => documentStore.getState().drive.title;

beforeEach(async () => {
  // jsdom has no canvas; it says so each time it is asked.
  vi.spyOn(HTMLCanvasElement.prototype, "getContext").mockReturnValue(null);
  await closeSaved();
  globalThis.indexedDB = new IDBFactory();
  savedStore.setState({ heads: null, told: null, deleted: [], room: null });
  openDrive({ ...newDrive(), title: "Mill" });
});
afterEach(() => vi.restoreAllMocks());

const open = async (): Promise<ReturnType<typeof userEvent.setup>> => {
  render(<SavedBody />);
  await waitFor(() => expect(savedStore.getState().heads).not.toBeNull());
  return userEvent.setup();
};
const named = async (...names: readonly string[]): Promise<void> => {
  await addSaved(names.map((name) => ({ name, drive: { ...newDrive(), title: name } })));
};
const shown = (): string[] =>
  within(screen.getByRole("region", { name: "List of saved drives" }))
    .getAllByRole("listitem")
    .map((item) => item.querySelector("strong")?.textContent ?? "");
const told = (text: string | RegExp): Promise<HTMLElement> => screen.findByText(text);

describe("saving", () => {
  it("takes the drive's title for its name, and offers to save over it from then on", async () => {
    const user = await open();
    screen.getByText(/No drive is saved in this browser yet/);
    expect(screen.getByRole("textbox", { name: "Name for the drive on the bench" })).toHaveValue("Mill");
    await user.click(screen.getByRole("button", { name: "Save" }));
    await told("Saved as “Mill”.");
    expect(shown()).toEqual(["Mill"]);
    act(() => void perform(setTitle("Mill of two stages"), "the title"));
    await user.click(screen.getByRole("button", { name: "Save over “Mill”" }));
    await told("Saved “Mill”.");
    const [head] = await listSaved();
    expect(head).toMatchObject({ name: "Mill", revision: 2 });
    expect((await readSaved(head?.id ?? ""))?.text).toBe(writeDrive(documentStore.getState().drive));
  });

  it("under a name that is taken makes a copy, and says so", async () => {
    await named("Mill");
    const user = await open();
    await user.click(screen.getByRole("button", { name: "Save" }));
    await told("Saved as “Mill (copy)”, for “Mill” was there already.");
    expect(shown().sort()).toEqual(["Mill", "Mill (copy)"]);
  });

  it("over one that another tab saved meanwhile makes a copy, and says so", async () => {
    const user = await open();
    await user.click(screen.getByRole("button", { name: "Save" }));
    await told("Saved as “Mill”.");
    const link = currentLink();
    if (!link) throw new Error("Nothing is linked.");
    await saveOver(link, { ...newDrive(), title: "Theirs" }, () => null);
    await user.click(screen.getByRole("button", { name: "Save over “Mill”" }));
    await told(
      /“Mill” was changed or deleted in another tab meanwhile, so yours was saved beside it as “Mill \(copy\)”/,
    );
    expect(shown().sort()).toEqual(["Mill", "Mill (copy)"]);
  });

  it("that fails says so in one sentence and leaves all as it was", async () => {
    await named("Mixer");
    const user = await open();
    vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    await user.click(screen.getByRole("button", { name: "Save" }));
    const alert = await screen.findByRole("alert");
    expect(alert).toHaveTextContent(
      "“Mill” was not saved, and nothing was changed: the browser's storage is full; export and delete some drives, or save this one as a file.",
    );
    expect(shown()).toEqual(["Mixer"]);
    expect(currentLink()).toBeNull();
  });

  it("is no longer offered over a drive once Undo went back past it, or another drive was opened", async () => {
    await named("Mixer");
    const user = await open();
    await user.click(screen.getByRole("button", { name: /^Mixer/ }));
    await waitFor(() => expect(title()).toBe("Mixer"));
    expect(currentLink()).toMatchObject({ name: "Mixer" });
    act(() => undo());
    expect(title()).toBe("Mill");
    expect(currentLink()).toBeNull();
    await user.click(screen.getByRole("button", { name: /^Mixer/ }));
    await waitFor(() => expect(currentLink()).not.toBeNull());
    act(() => openDrive(newDrive(), { keepHistory: true, label: "a new drive" }));
    expect(currentLink()).toBeNull();
    expect(screen.queryByRole("button", { name: /Save over/ })).toBeNull();
  });
});

describe("the list", () => {
  it("is searched by parts of names, without marks and case", async () => {
    await named("Kite winch", "Ärmel mill", "Corn Mill");
    const user = await open();
    const search = screen.getByRole("searchbox", { name: "Search by name" });
    await user.type(search, "MILL a");
    await waitFor(() => expect(shown()).toEqual(["Ärmel mill"]));
    screen.getByText("1 of 3 drives");
    await user.keyboard("{Escape}");
    await waitFor(() => expect(shown()).toHaveLength(3));
    expect(search).toHaveValue("");
  });

  it("renames in its place: Enter keeps, Escape takes back, and the focus comes back", async () => {
    await named("Mixer");
    const user = await open();
    await user.click(screen.getByRole("button", { name: "Rename Mixer" }));
    await user.keyboard("Dough mixer{Escape}");
    await waitFor(() => expect(screen.getByRole("button", { name: "Rename Mixer" })).toHaveFocus());
    await user.keyboard("{Enter}");
    await user.keyboard("Dough mixer{Enter}");
    await told("“Mixer” is now called “Dough mixer”.");
    expect(shown()).toEqual(["Dough mixer"]);
  });

  it("duplicates", async () => {
    await named("Mixer");
    const user = await open();
    await user.click(screen.getByRole("button", { name: "Duplicate Mixer" }));
    await told("Duplicated as “Mixer (copy)”.");
    expect(shown().sort()).toEqual(["Mixer", "Mixer (copy)"]);
  });

  it("deletes, and brings back with a button or the key for undo, the last one first", async () => {
    await named("Mixer", "Winch");
    const user = await open();
    const before = await listSaved();
    await user.click(screen.getByRole("button", { name: "Delete Mixer" }));
    await waitFor(() => expect(screen.getByRole("button", { name: "Undo deleting “Mixer”" })).toHaveFocus());
    await user.click(screen.getByRole("button", { name: "Delete Winch" }));
    await told("Deleted “Winch”.");
    await user.click(await screen.findByRole("button", { name: "Undo deleting “Winch”" }));
    await told("“Winch” is back.");
    screen.getByRole("button", { name: "Rename Winch" }).focus();
    await user.keyboard("{Control>}z{/Control}");
    await told("“Mixer” is back.");
    expect(await listSaved()).toEqual(before);
    expect(screen.queryByRole("button", { name: /Undo deleting/ })).toBeNull();
  });

  it("of many shows the first at once and all soon", async () => {
    await named(...Array.from({ length: 60 }, (_, i) => `Drive ${i}`));
    await open();
    await waitFor(() => expect(shown()).toHaveLength(60), { timeout: 10_000 });
  });

  it("that can't be read says why", async () => {
    vi.spyOn(indexedDB, "open").mockImplementation(() => {
      throw new DOMException("no", "SecurityError");
    });
    await open();
    expect(await screen.findByRole("alert")).toHaveTextContent(
      "The saved drives can't be shown: the browser does not let this page keep anything; save drives as files.",
    );
  });
});

describe("export and import", () => {
  it("never replace a drive: names that are taken become copies", async () => {
    await named("Mixer");
    const user = await open();
    const text = writeDrives(["Mixer", "Winch"].map((name) => ({ name, text: writeDrive(newDrive()) })));
    const picker = document.querySelector<HTMLInputElement>("input[type=file]");
    if (!picker) throw new Error("There is no field for files.");
    await user.upload(picker, new File([text], "class.drives.json", { type: "application/json" }));
    await told("Imported 2 drives from class.drives.json. Names that were taken became “Mixer (copy)”.");
    expect(shown().sort()).toEqual(["Mixer", "Mixer (copy)", "Winch"]);
    await user.upload(picker, new File(["{"], "torn.drives.json", { type: "application/json" }));
    expect(await screen.findByRole("alert")).toHaveTextContent(/^Nothing was imported from torn\.drives\.json: Line 1/);
    expect(await listSaved()).toHaveLength(3);
  });

  it("export hands over a file with every drive in it", async () => {
    await named("Mixer", "Winch");
    const user = await open();
    let blob: Blob | null = null;
    URL.createObjectURL = (made: Blob | MediaSource) => {
      blob = made as Blob;
      return "blob:none";
    };
    vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(() => undefined);
    await user.click(screen.getByRole("button", { name: "Export all" }));
    await told(/^Exported 2 drives as turnwise-\d{4}-\d\d-\d\d\.drives\.json\.$/);
    const text = await new Promise<string>((settle) => {
      const reader = new FileReader();
      reader.onload = () => settle(String(reader.result));
      reader.readAsText(blob as unknown as Blob);
    });
    const file = JSON.parse(text) as { drives: { name: string }[] };
    expect(file.drives.map(({ name }) => name).sort()).toEqual(["Mixer", "Winch"]);
  });
});

describe("the words", () => {
  it("say how full the storage is", () => {
    expect([999, 12_345, 3_100_000, 2_100_000_000].map(sizeWords)).toEqual(["1.0 kB", "12 kB", "3.1 MB", "2.1 GB"]);
    expect(roomWords({ used: 3_100_000, most: 2_100_000_000, isPersistent: true })).toBe(
      "This page takes 3.1 MB of the 2.1 GB that the browser allows it (under 1%). The browser has promised to keep the drives.",
    );
    expect(roomWords({ used: 5e8, most: 1e9, isPersistent: false })).toMatch(
      /\(50%\)\. When the disk runs short .* export/,
    );
    expect(roomWords({ used: null, most: null, isPersistent: null })).toBe(
      "This browser does not say how full its storage is.",
    );
  });

  it("cut a long name in the middle", () => {
    expect(quoted("Mill")).toBe("“Mill”");
    expect(quoted(`${"long ".repeat(20)} (copy 2)`)).toMatch(/^“(long ){8}….{7} \(copy 2\)”$/);
  });

  it("say what is in a drive", () => {
    const at = new Date(2026, 10, 25, 18, 10).getTime();
    expect(contentWords({ gears: 1, shafts: 2, at })).toBe("1 gear on 2 shafts, 25 Nov 2026, 18:10");
  });
});
