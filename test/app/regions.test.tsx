/** What stands round the regions: the title, the notices, the dialogs, and the guard that keeps a fault in its region. */
import { render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { beforeEach, describe, expect, it, vi } from "vitest";
import { COMMANDS } from "../../src/app/commands/list";
import { showDialog } from "../../src/app/dialogs/dialog-store";
import { Dialogs } from "../../src/app/dialogs/dialogs";
import { DriveTitle } from "../../src/app/drive-title";
import { ErrorBoundary } from "../../src/app/error-boundary";
import { Notices } from "../../src/app/notices";
import { newDrive } from "../../src/engine/drive/defaults";
import { notify, refuse } from "../../src/exchange/notices";
import { SAMPLES } from "../../src/exchange/sample-list";
import { documentStore, openDrive, undo } from "../../src/store/document";

const Faulty = ({ ok }: { readonly ok: () => boolean }) => {
  if (!ok()) throw new Error("planted");
  return <p>All is well</p>;
};

beforeEach(() => {
  // jsdom has the element but not its methods.
  HTMLDialogElement.prototype.showModal ??= function show(this: HTMLDialogElement) {
    this.open = true;
  };
  HTMLDialogElement.prototype.close ??= function close(this: HTMLDialogElement) {
    this.open = false;
  };
  openDrive(newDrive());
  notify(null);
  refuse(null);
  showDialog(null);
});

describe("the title", () => {
  it("is edited in place as one undo step, and is the document's too", async () => {
    const user = userEvent.setup();
    render(<DriveTitle />);
    const field = screen.getByRole("textbox", { name: "Title of the drive" });
    await user.clear(field);
    await user.type(field, "Kite winch{Enter}");
    expect(documentStore.getState().drive.title).toBe("Kite winch");
    expect(document.title).toBe("Kite winch · Turnwise");
    undo();
    expect(documentStore.getState().drive.title).toBe("New drive");
  });

  it("takes typing back on Escape", async () => {
    const user = userEvent.setup();
    render(<DriveTitle />);
    await user.type(screen.getByRole("textbox"), " and more{Escape}");
    await user.tab();
    expect(documentStore.getState().drive.title).toBe("New drive");
  });

  it("shows marks and tags as text", () => {
    openDrive({ ...newDrive(), title: "<script>alert(1)</script>" });
    const { container } = render(<DriveTitle />);
    expect(container.querySelector("script")).toBeNull();
    expect(document.title).toBe("<script>alert(1)</script> · Turnwise");
  });
});

describe("a region that fails", () => {
  it("says so in one sentence, leaves the rest alone and can be tried again", async () => {
    const user = userEvent.setup();
    vi.spyOn(console, "error").mockImplementation(() => undefined);
    let ok = false;
    render(
      <>
        <ErrorBoundary region="The bench">
          <Faulty ok={() => ok} />
        </ErrorBoundary>
        <p>The panels</p>
      </>,
    );
    expect(screen.getByRole("alert")).toHaveTextContent(/The bench stopped .* your drive is safe/);
    expect(screen.getByText("The panels")).toBeInTheDocument();
    ok = true;
    await user.click(screen.getByRole("button", { name: "Reload the view" }));
    expect(screen.getByText("All is well")).toBeInTheDocument();
    vi.restoreAllMocks();
  });

  it("tries again by itself with another drive", () => {
    vi.spyOn(console, "error").mockImplementation(() => undefined);
    const { rerender } = render(
      <ErrorBoundary region="The bench" resetOn={1}>
        <Faulty ok={() => false} />
      </ErrorBoundary>,
    );
    rerender(
      <ErrorBoundary region="The bench" resetOn={2}>
        <Faulty ok={() => true} />
      </ErrorBoundary>,
    );
    expect(screen.getByText("All is well")).toBeInTheDocument();
    vi.restoreAllMocks();
  });
});

describe("the notices", () => {
  it("offer what can be done and go away once answered", async () => {
    const user = userEvent.setup();
    const run = vi.fn();
    render(<Notices />);
    notify({ tone: "polite", text: "Your drive from before is back.", action: { words: "New", run } });
    expect(await screen.findByText("Your drive from before is back.")).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "New" }));
    expect(run).toHaveBeenCalledOnce();
    expect(screen.queryByText("Your drive from before is back.")).toBeNull();
  });
});

describe("the dialogs", () => {
  it("Keys lists every command", async () => {
    showDialog("keys");
    render(<Dialogs />);
    const dialog = await screen.findByRole("dialog", { name: "Keys" });
    for (const { words } of COMMANDS) {
      expect(within(dialog).getByText(words.replace("…", ""), { selector: "dd" })).toBeInTheDocument();
    }
  });

  it("Samples shows each with its sentence", async () => {
    showDialog("samples");
    render(<Dialogs />);
    await screen.findByRole("dialog", { name: "Samples" });
    for (const { title, notice } of SAMPLES) {
      expect(screen.getByText(title).closest("button")).toHaveTextContent(notice);
    }
  });

  it("a refused file shows its first 20 faults and how many more", async () => {
    const user = userEvent.setup();
    const faults = Array.from({ length: 27 }, (_, i) => ({ pointer: `/gears/${i}/teeth`, message: `Found ${i}.` }));
    refuse({ name: "mill.drive.json", faults });
    render(<Dialogs />);
    expect(await screen.findByText(/mill\.drive\.json was not opened.*27 places/)).toBeInTheDocument();
    expect(screen.getAllByRole("listitem")).toHaveLength(20);
    expect(screen.getByText("And 7 more.")).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "Close" }));
    expect(screen.queryByRole("dialog")).toBeNull();
  });
});
