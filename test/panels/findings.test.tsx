import { render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { describe, expect, it } from "vitest";
import { Findings } from "../../src/panels/findings";
import { PartsList } from "../../src/panels/parts-list/parts-list";
import { documentStore } from "../../src/store/document";
import { viewStore } from "../../src/store/view";
import { MIXER, open, violations } from "./support";

/** The mixer with mates that differ in module: an error at m1. */
const MISMATCH = { ...MIXER, gears: MIXER.gears.map((gear) => (gear.id === "b1" ? { ...gear, module: 3 } : gear)) };
const QUIET = {
  ...MIXER,
  shafts: MIXER.shafts.slice(0, 2),
  gears: MIXER.gears.slice(0, 2),
  meshes: MIXER.meshes.slice(0, 1),
  ports: [{ shaft: "A", role: "input", speed: 100 }],
};

describe("the findings", () => {
  it("say that there is nothing to report", () => {
    open(QUIET);
    render(<Findings />);
    expect(screen.getByText("Nothing to report: the drive turns and every check is met.")).toBeVisible();
  });

  it("tell how bad each is by shape and word, with its sentence", () => {
    open(MISMATCH);
    render(<Findings />);
    const [first] = documentStore.getState().solved.findings;
    expect(first?.severity).toBe("error");
    const item = within(screen.getAllByRole("listitem")[0] as HTMLElement);
    expect(item.getByText("Error")).toBeVisible();
    expect(item.getByText(first?.message ?? "")).toBeVisible();
    expect(document.querySelector("svg.lucide-octagon")).not.toBeNull();
  });

  it("lead to the place: lit on the bench, its row in the list with the focus", async () => {
    open(MISMATCH);
    render(
      <>
        <Findings />
        <PartsList />
      </>,
    );
    await userEvent.setup().click(screen.getAllByRole("button", { name: "Show mesh m1" })[0] as HTMLElement);
    expect(viewStore.getState().selection).toEqual({ kind: "mesh", id: "m1" });
    expect(document.activeElement?.closest("[data-part]")).toHaveAttribute("data-part", "mesh m1");
  });

  it("lead to a place whose list was folded away, once it is there", async () => {
    open(MISMATCH);
    const { unmount } = render(<Findings />);
    await userEvent.setup().click(screen.getAllByRole("button", { name: /^Show gear b1/ })[0] as HTMLElement);
    expect(viewStore.getState().panels.parts).toBe(true);
    unmount();
    render(<PartsList />);
    expect(document.activeElement?.closest("[data-part]")).toHaveAttribute("data-part", "gear b1");
  });

  it("have nothing that axe objects to", async () => {
    open(MISMATCH);
    render(<Findings />);
    expect(await violations(document.body)).toEqual([]);
  });
});
