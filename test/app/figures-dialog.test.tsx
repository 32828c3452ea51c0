/** The dialog of figures: what it offers, what it refuses, and what it says where the browser can't. */
import "../support/draft-here";
import { act, render, screen, waitFor } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { FiguresDialog } from "../../src/app/dialogs/figures-dialog";
import { pixelHeight, readWidth } from "../../src/exchange/figure-files";
import { figureName } from "../../src/exchange/file-name";
import { openDrive } from "../../src/store/document";
import { setDrawings } from "../../src/store/drawings";
import { drive, MIXER, open, violations } from "../panels/support";

let saved: { name: string; file: Blob }[] = [];
let made: Blob[] = [];

beforeEach(() => {
  open(MIXER);
  setDrawings({ angle: "first", gears: "simplified", mesh: null, size: "small" });
  [saved, made] = [[], []];
  // jsdom has neither dialogs nor addresses of files.
  HTMLDialogElement.prototype.showModal = function showModal() {
    this.open = true;
  };
  HTMLDialogElement.prototype.close = function close() {
    this.open = false;
  };
  URL.createObjectURL = (file) => `blob:${made.push(file as Blob) - 1}`;
  URL.revokeObjectURL = () => {};
  vi.spyOn(HTMLAnchorElement.prototype, "click").mockImplementation(function click(this: HTMLAnchorElement) {
    const file = made[Number(this.href.replace("blob:", ""))];
    if (file) saved.push({ name: this.download, file });
  });
});
afterEach(() => vi.restoreAllMocks());

const textOf = (file: Blob | undefined): Promise<string> =>
  new Promise((settle) => {
    const reader = new FileReader();
    reader.onload = () => settle(String(reader.result));
    reader.readAsText(file ?? new Blob());
  });
const button = (name: string): HTMLElement => screen.getByRole("button", { name });
const ready = () => waitFor(() => expect(button("Download SVG")).not.toHaveAttribute("aria-disabled"));

describe("figures", () => {
  it("of each sort are offered and saved under a name that says what they are, the same bytes each time", async () => {
    const user = userEvent.setup();
    const { container } = render(<FiguresDialog />);
    const list = screen.getByRole("combobox", { name: "Figure of" });
    const all = [...list.querySelectorAll("option")].map(({ textContent }) => textContent ?? "");
    const names = all.filter((name) => !name.includes("animation"));
    expect(all).toHaveLength(names.length + 1);
    for (const name of names) {
      await user.selectOptions(list, name);
      await ready();
      await user.click(button("Download SVG"));
      await user.click(button("Download SVG"));
      const [first, second] = saved.slice(-2);
      expect(first?.name).toBe(figureName(drive().title, name, "svg"));
      const text = await textOf(first?.file);
      expect(text).toMatch(/^<svg [\s\S]*<text [\s\S]*<\/svg>\n$/);
      expect(await textOf(second?.file)).toBe(text);
    }
    expect(saved).toHaveLength(16);
    expect(await violations(container)).toEqual([]);
  });

  it("of the workings tell what the panel tells, as text, with the cautions where torques show", async () => {
    const user = userEvent.setup();
    render(<FiguresDialog />);
    await user.selectOptions(screen.getByRole("combobox", { name: "Figure of" }), "Workings");
    await ready();
    await user.click(button("Download SVG"));
    const svg = new DOMParser().parseFromString(await textOf(saved.at(-1)?.file), "image/svg+xml");
    const text = [...svg.querySelectorAll("#workings-labels text")].map(({ textContent }) => textContent).join(" ");
    // 20 drives 50, 16 drives 32: 5/2 × 2 = 5.
    expect(text).toContain("50 / 20");
    expect(text).toContain("Guard meshing gears and turning shafts");
    expect(text).toMatch(/How \S+ .*turns/);
  });

  it("of the readouts have a row for each shaft", async () => {
    const user = userEvent.setup();
    render(<FiguresDialog />);
    await user.selectOptions(screen.getByRole("combobox", { name: "Figure of" }), "Readouts");
    await ready();
    await user.click(button("Download SVG"));
    const svg = new DOMParser().parseFromString(await textOf(saved.at(-1)?.file), "image/svg+xml");
    const cells = [...svg.querySelectorAll("text")].map((one) => [one.getAttribute("y"), one.textContent] as const);
    for (const { name } of drive().shafts) {
      const row = cells.find(([, text]) => text === name)?.[0];
      const own = cells.filter(([y]) => y === row).map(([, text]) => text);
      expect(own.length).toBeGreaterThanOrEqual(4);
      expect(own.join(" ")).toMatch(/rev\/min/);
    }
  });

  it("need something to draw, and a width that can be painted", async () => {
    const user = userEvent.setup();
    render(<FiguresDialog />);
    await ready();
    const width = screen.getByRole("textbox", { name: "PNG width" });
    for (const bad of ["", "abc", "12.5", "-300", "1e3", "99", "10001", "1234567"]) {
      await user.clear(width);
      if (bad) await user.type(width, bad);
      expect(width).toHaveAccessibleDescription(/^The width is a whole number of pixels from 100 to 10000/);
      expect(button("Download PNG")).toHaveAttribute("aria-disabled", "true");
    }
    act(() => openDrive({ ...drive(), shafts: [], gears: [], meshes: [], ports: [] }));
    expect(await screen.findByRole("alert")).toHaveTextContent("The drive has nothing to draw");
    expect(button("Download SVG")).toHaveAttribute("aria-disabled", "true");
    await user.selectOptions(screen.getByRole("combobox", { name: "Figure of" }), "Workings");
    expect(await screen.findByRole("alert")).toHaveTextContent("The drive has no shaft to tell of");
  });

  it("through a mesh that is gone are refused with its name", async () => {
    const user = userEvent.setup();
    render(<FiguresDialog />);
    await user.selectOptions(screen.getByRole("combobox", { name: "Figure of" }), "Section");
    act(() => setDrawings({ mesh: "m9" }));
    expect(await screen.findByRole("alert")).toHaveTextContent('The drive has no mesh "m9": name one that it has.');
    expect(button("Copy SVG")).toHaveAttribute("aria-disabled", "true");
  });

  it("that can't be copied or painted are told in a sentence", async () => {
    const user = userEvent.setup();
    render(<FiguresDialog />);
    await ready();
    vi.spyOn(navigator.clipboard, "writeText").mockRejectedValue(new Error("no"));
    await user.click(button("Copy SVG"));
    expect(await screen.findByText(/^The browser does not let this page copy that: download it instead/)).toBeVisible();
    // The canvas is lost.
    HTMLImageElement.prototype.decode = () => Promise.resolve();
    HTMLCanvasElement.prototype.getContext = () => null;
    await user.click(button("Download PNG"));
    expect(await screen.findByText(/^The browser could not paint a picture 2000 pixels wide/)).toBeVisible();
    await user.click(button("Copy PNG"));
    expect(saved).toEqual([]);
  });
});

describe("the width of a PNG", () => {
  const long = { width: 100, height: 1000 };
  it("keeps the figure's own shape, and to what a canvas holds", () => {
    expect(readWidth(" 2000 ", long)).toBe(2000);
    expect(pixelHeight(2000, long)).toBe(20_000);
    // 64 million pixels at ten to one: √6.4 million.
    expect(readWidth("2529", long)).toBe(2529);
    expect(readWidth("2530", long)).toBe("This figure is tall: it can be 2529 pixels wide at the most.");
  });
});
