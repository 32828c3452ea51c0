/** Commands by key: one object for key, menu and button, and no key taken from who is typing. */
import { fireEvent, render, screen } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { CommandButton } from "../../src/app/command-button";
import type { Command } from "../../src/app/commands/command";
import { undoCommand } from "../../src/app/commands/edit-commands";
import { keyWords, listenForKeys, pressName, setSingleKeys } from "../../src/app/commands/keys";
import { COMMANDS } from "../../src/app/commands/list";
import { KeysDialog } from "../../src/app/dialogs/keys-dialog";
import { DriveTitle } from "../../src/app/drive-title";
import { setTitle } from "../../src/engine/drive/commands/shaft";
import { newDrive } from "../../src/engine/drive/defaults";
import { clockStore, setPlaying } from "../../src/store/clock";
import { documentStore, openDrive, perform } from "../../src/store/document";
import { select, setView, viewStore } from "../../src/store/view";

const title = (): string => documentStore.getState().drive.title;
let stop = (): void => undefined;

beforeEach(() => {
  openDrive(newDrive());
  setView({ selection: null, adding: null, announcement: "" });
  setSingleKeys(true);
  stop = listenForKeys(COMMANDS);
});
afterEach(() => stop());

describe("the commands", () => {
  it("have ids and keys of their own, and words", () => {
    const keys = COMMANDS.flatMap((command) => command.keys);
    expect(new Set(keys).size).toBe(keys.length);
    expect(new Set(COMMANDS.map(({ id }) => id)).size).toBe(COMMANDS.length);
    for (const { words } of COMMANDS) expect(words).not.toBe("");
  });

  it.each([
    [{ key: "z", ctrlKey: true }, "Mod+Z"],
    [{ key: "Z", ctrlKey: true, shiftKey: true }, "Mod+Shift+Z"],
    [{ key: "s", metaKey: true }, "Mod+S"],
    [{ key: "?", shiftKey: true }, "?"],
    [{ key: " " }, "Space"],
    [{ key: "Delete" }, "Delete"],
  ])("a press of %o is %s", (press, name) => {
    expect(pressName({ ctrlKey: false, metaKey: false, shiftKey: false, altKey: false, ...press })).toBe(name);
  });

  it("say their keys in words", () => expect(keyWords("Mod+Shift+Z")).toBe("Ctrl + Shift + Z"));
});

describe("an open dialog", () => {
  it("keeps keys from what stands behind it, wherever the focus is, and Tab within it", async () => {
    const user = userEvent.setup();
    // jsdom has no dialogs of the browser's own.
    HTMLDialogElement.prototype.showModal ??= function show(this: HTMLDialogElement) {
      this.open = true;
    };
    HTMLDialogElement.prototype.close ??= function close(this: HTMLDialogElement) {
      this.open = false;
    };
    perform(setTitle("Mill"), "title");
    render(<KeysDialog />);
    expect(screen.getByRole("dialog", { name: "Keys" })).toHaveAttribute("open");
    (document.activeElement as HTMLElement).blur();
    fireEvent.keyDown(document.body, { key: "n" });
    fireEvent.keyDown(document.body, { key: "z", ctrlKey: true });
    expect(title()).toBe("Mill");
    // Nor a layout: all of it is seen.
    vi.spyOn(HTMLElement.prototype, "getClientRects").mockReturnValue([new DOMRect()] as unknown as DOMRectList);
    screen.getByRole("checkbox").focus();
    for (let presses = 0; presses < 6; presses++) {
      await user.tab();
      expect(screen.getByRole("dialog")).toContainElement(document.activeElement as HTMLElement);
    }
  });
});

describe("undo and redo by key", () => {
  it("go back and forth, and say what", async () => {
    const user = userEvent.setup();
    perform(setTitle("Mill"), "the title");
    await user.keyboard("{Control>}z{/Control}");
    expect(title()).toBe("New drive");
    expect(viewStore.getState().announcement).toBe("Undone: the title.");
    await user.keyboard("{Control>}{Shift>}z{/Shift}{/Control}");
    expect(title()).toBe("Mill");
    await user.keyboard("{Control>}z{/Control}{Control>}y{/Control}");
    expect(title()).toBe("Mill");
  });

  it("leave the typing in the title to the title", async () => {
    const user = userEvent.setup();
    render(<DriveTitle />);
    perform(setTitle("Mill"), "the title");
    await user.click(screen.getByRole("textbox", { name: "Title of the drive" }));
    await user.keyboard("{Control>}z{/Control}");
    expect(title()).toBe("Mill");
  });

  it("work while a number field has the focus", async () => {
    const user = userEvent.setup();
    render(<input role="spinbutton" aria-label="Teeth" aria-valuenow={20} />);
    perform(setTitle("Mill"), "the title");
    await user.click(screen.getByRole("spinbutton"));
    await user.keyboard("{Control>}z{/Control}");
    expect(title()).toBe("New drive");
  });
});

describe("single keys", () => {
  it("Space plays and pauses, but not from a button, which it presses", async () => {
    const user = userEvent.setup();
    const pressed = vi.fn();
    render(
      <button type="button" onClick={pressed}>
        Step
      </button>,
    );
    setPlaying(true);
    await user.keyboard(" ");
    expect(clockStore.getState().playing).toBe(false);
    screen.getByRole("button").focus();
    await user.keyboard(" ");
    expect(pressed).toHaveBeenCalledOnce();
    expect(clockStore.getState().playing).toBe(false);
  });

  it("T and M open and close their panels, Escape leaves one before the selection", async () => {
    const user = userEvent.setup();
    select({ kind: "gear", id: "a1" });
    await user.keyboard("t");
    expect(viewStore.getState().aside).toBe("structure");
    await user.keyboard("m");
    expect(viewStore.getState().aside).toBe("measure");
    await user.keyboard("m");
    expect(viewStore.getState().aside).toBeNull();
    await user.keyboard("t{Escape}");
    expect(viewStore.getState()).toMatchObject({ aside: null, selection: { id: "a1" } });
    await user.keyboard("{Escape}");
    expect(viewStore.getState().selection).toBeNull();
  });

  it("A adds a stage to the selected gear's shaft, Escape leaves it", async () => {
    const user = userEvent.setup();
    select({ kind: "gear", id: "a1" });
    await user.keyboard("a");
    expect(viewStore.getState().adding).toEqual({ shaft: "A", gear: "a1" });
    await user.keyboard("{Escape}");
    expect(viewStore.getState().adding).toBeNull();
    expect(viewStore.getState().selection).not.toBeNull();
    await user.keyboard("{Escape}");
    expect(viewStore.getState().selection).toBeNull();
  });

  it("Delete removes what is selected, in one undo step", async () => {
    const user = userEvent.setup();
    select({ kind: "gear", id: "a1" });
    await user.keyboard("{Delete}");
    expect(documentStore.getState().drive.gears).toEqual([]);
    await user.keyboard("{Control>}z{/Control}");
    expect(documentStore.getState().drive.gears).toHaveLength(1);
  });

  it("Delete says why the last root shaft can't go", async () => {
    const user = userEvent.setup();
    select({ kind: "shaft", id: "A" });
    await user.keyboard("{Delete}");
    expect(documentStore.getState().drive.shafts).toHaveLength(1);
    expect(viewStore.getState().announcement).toMatch(/Shaft A holds the place/);
  });

  it("do nothing in a text, in a dialog, or switched off", () => {
    render(
      <>
        <input aria-label="Name" />
        <dialog open>
          <button type="button">Close</button>
        </dialog>
      </>,
    );
    fireEvent.keyDown(screen.getByRole("textbox"), { key: "a" });
    fireEvent.keyDown(screen.getByRole("button"), { key: "a" });
    setSingleKeys(false);
    fireEvent.keyDown(document.body, { key: "a" });
    expect(viewStore.getState().adding).toBeNull();
  });
});

describe("a command's button", () => {
  it("stays in the row of focus with nothing to do, and says so", async () => {
    const user = userEvent.setup();
    render(<CommandButton command={undoCommand} bare />);
    const button = screen.getByRole("button", { name: "Undo" });
    expect(button).toHaveAttribute("aria-disabled", "true");
    perform(setTitle("Mill"), "the title");
    expect(await screen.findByRole("button", { name: "Undo", current: undefined })).not.toHaveAttribute(
      "aria-disabled",
      "true",
    );
    await user.click(button);
    expect(title()).toBe("New drive");
  });

  it("runs only what its guard lets through", async () => {
    const user = userEvent.setup();
    const perform = vi.fn();
    const command: Command = { ...undoCommand, guard: () => false, perform };
    render(<CommandButton command={command} />);
    await user.click(screen.getByRole("button"));
    expect(perform).not.toHaveBeenCalled();
  });
});
