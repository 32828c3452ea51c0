/** The panel that answers wishes, joins, fits and repeats: what is shown as a ghost, what is done in one undo step, what is said. */
import { render, screen, waitFor, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, describe, expect, test } from "vitest";
import { writeDrive } from "../../src/engine/drive/write";
import { Answers } from "../../src/panels/answers/answers";
import { documentStore, undo } from "../../src/store/document";
import { readEyeBy } from "../../src/store/eye";
import { select, setView, viewStore } from "../../src/store/view";
import { planetary } from "../support/random-drives";
import { drive, MIXER, open, violations } from "./support";

const steps = (): number => documentStore.temporal.getState().pastStates.length;
const view = () => viewStore.getState();

afterEach(() => setView({ asking: null, ghost: null }));

async function wishFor(words: string): Promise<HTMLElement[]> {
  await userEvent.click(screen.getByRole("radio", { name: words }));
  return answers();
}
const answers = async (): Promise<HTMLElement[]> =>
  within(await screen.findByRole("list", { name: "Changes that do it" }))
    .getAllByRole("heading", { level: 3 })
    .map((heading) => heading.closest("li") as HTMLElement);

describe("wishes", () => {
  test("the other way: three answers, each a ghost while it is looked at; one is one undo step and is announced", async () => {
    open(MIXER);
    setView({ asking: { kind: "wish", shaft: "C" } });
    render(<Answers />);
    const cards = await wishFor("turn the other way");
    expect(cards.map((card) => within(card).getByRole("heading").textContent)).toEqual([
      "Reverse the input at Motor",
      "Put b2 on the other side of c1",
      "Put an idler between a1 and b1",
    ]);
    const [first, , idler] = cards as [HTMLElement, HTMLElement, HTMLElement];
    within(first).getByRole("button", { name: "Do this" }).focus();
    await waitFor(() => expect(view().ghost?.shafts).toEqual(["C"]));
    await userEvent.hover(idler);
    await waitFor(() => expect(view().ghost?.shafts).toEqual(["D", "B", "C"]));
    const before = [writeDrive(drive()), steps()] as const;
    await userEvent.click(within(idler).getByRole("button", { name: "Do this" }));
    expect(drive().shafts.map(({ name }) => name)).toEqual(["Motor", "Cross shaft", "Mixer", "Idler D"]);
    expect(steps()).toBe(before[1] + 1);
    expect(view().asking).toBeNull();
    expect(view().ghost).toBeNull();
    expect(view().announcement).toMatch(/^Done: Put an idler between a1 and b1\..*counterclockwise/);
    undo();
    expect(writeDrive(drive())).toBe(before[0]);
  });

  test("seen from here asks where the eye is", async () => {
    open(MIXER);
    readEyeBy({ towards: () => [0, 0, 1], near: () => null });
    setView({ asking: { kind: "wish", shaft: "C" } });
    render(<Answers />);
    await userEvent.click(screen.getByRole("radio", { name: "turn this way seen from here" }));
    await userEvent.click(screen.getByRole("radio", { name: "clockwise" }));
    expect(await screen.findByText(/turns clockwise seen from here already/)).toBeVisible();
    await userEvent.click(screen.getByRole("radio", { name: "counterclockwise" }));
    expect(await answers()).toHaveLength(3);
  });

  test("a speed is typed; the answers follow, and nothing of the drive changes meanwhile", async () => {
    open(MIXER);
    const before = writeDrive(drive());
    setView({ asking: { kind: "wish", shaft: "C" } });
    render(<Answers />);
    await userEvent.click(screen.getByRole("radio", { name: "turn this fast" }));
    expect(await screen.findByText("Mixer turns at 290 rev/min already.")).toBeVisible();
    const field = screen.getByRole("spinbutton", { name: "Wanted speed of Mixer" });
    await userEvent.clear(field);
    await userEvent.type(field, "300");
    expect((await answers()).length).toBeGreaterThan(1);
    expect(writeDrive(drive())).toBe(before);
  });

  test("an angle, a place, a torque with its cautions; Escape leaves", async () => {
    open(MIXER);
    setView({ asking: { kind: "wish", shaft: "C" } });
    const { container } = render(<Answers />);
    await userEvent.click(screen.getByRole("radio", { name: "stand at this angle" }));
    const angle = screen.getByRole("spinbutton", { name: "Wanted angle of Mixer" });
    await userEvent.clear(angle);
    await userEvent.type(angle, "60");
    expect((await answers()).length).toBeGreaterThan(0);
    await userEvent.click(screen.getByRole("radio", { name: "come out here" }));
    expect(screen.getAllByRole("spinbutton")).toHaveLength(3);
    await userEvent.click(screen.getByRole("radio", { name: "have this much torque" }));
    expect(screen.getByText(/A sketch, not a rating/)).toBeVisible();
    expect(await violations(container)).toEqual([]);
    await userEvent.keyboard("{Escape}");
    await waitFor(() => expect(view().asking).toBeNull());
  });

  test("another shaft picked is the one to wish for; one that goes ends it", async () => {
    open(MIXER);
    setView({ asking: { kind: "wish", shaft: "C" } });
    render(<Answers />);
    select({ kind: "gear", id: "b1" });
    expect(await screen.findByText("Cross shaft should")).toBeVisible();
    expect(view().asking).toEqual({ kind: "wish", shaft: "B" });
    open(JSON.parse(writeDrive(planetary(24, 18, 60, 1))));
    await waitFor(() => expect(view().asking).toBeNull());
  });
});

describe("join", () => {
  const shaft = (id: string, origin: readonly number[]) => ({ id, pose: { origin, axis: [1, 0, 0], ref: [0, 0, 1] } });
  const file = (apart: number) => ({
    format: "turnwise.drive",
    version: 1,
    shafts: [shaft("A", [0, 0, 0]), shaft("B", [0, 0, apart])],
    gears: [],
  });

  test("pick the other, choose a pair", async () => {
    open(file(60));
    setView({ asking: { kind: "join", shaft: "A" } });
    const { container } = render(<Answers />);
    select({ kind: "shaft", id: "B" });
    const list = await screen.findByRole("list", { name: "Pairs that fit" });
    await userEvent.type(screen.getByRole("textbox", { name: "Ratio, if one is wanted" }), "1:3");
    expect(await screen.findByText(/1 turn of the input gives 3 of the output/)).toBeVisible();
    expect(await violations(container)).toEqual([]);
    await waitFor(() =>
      expect(screen.getAllByRole("heading", { level: 3 })[0]?.textContent).toMatch(/60 and 20 teeth/),
    );
    expect(list).toBeTruthy();
    await userEvent.click(screen.getAllByRole("button", { name: "Do this" })[0] as HTMLElement);
    expect(drive().meshes).toHaveLength(1);
  });

  test("no pair: the nearest move, after which there is one", async () => {
    open(file(57.3));
    setView({ asking: { kind: "join", shaft: "A", to: "B" } });
    render(<Answers />);
    expect(await screen.findByText(/57.3 mm apart/)).toBeVisible();
    await userEvent.click(screen.getByRole("button", { name: "Make this move" }));
    expect(await screen.findByRole("list", { name: "Pairs that fit" })).toBeVisible();
    expect(drive().shafts[1]?.pose?.origin[2]).toBeCloseTo(57.375, 9);
  });
});

test("planets: which numbers can be, and one chosen", async () => {
  open(JSON.parse(writeDrive(planetary(24, 18, 60, 1))));
  setView({ asking: { kind: "repeat", shaft: "P1" } });
  const { container } = render(<Answers />);
  expect(
    await screen.findByText("2, 3, 4 and 6 planets can be. 5 can't. From 7 on neighbours would touch."),
  ).toBeVisible();
  expect(screen.getByText("5 planets can't be assembled: (24 + 60)/5 is not a whole number.")).toBeVisible();
  expect(await violations(container)).toEqual([]);
  const card = screen.getByRole("heading", { name: "3 planets round the carrier" }).closest("li") as HTMLElement;
  await userEvent.click(within(card).getByRole("button", { name: "Do this" }));
  expect(drive().shafts.filter(({ frame }) => frame === "C")).toHaveLength(3);
});

test("a loop that misses by a little is fitted", async () => {
  const gear = (id: string, on: string, teeth: number) => ({ id, shaft: on, kind: "spur", teeth, module: 2 });
  open({
    format: "turnwise.drive",
    version: 1,
    shafts: [0, 60.01].map((z, i) => ({ id: "AB"[i], pose: { origin: [0, 0, z], axis: [1, 0, 0], ref: [0, 0, 1] } })),
    gears: [gear("a", "A", 20), gear("b", "B", 40)],
    meshes: [{ id: "m", gears: ["a", "b"] }],
  });
  setView({ asking: { kind: "fit", mesh: "m" } });
  render(<Answers />);
  const list = await screen.findByRole("list", { name: "Moves that fit it" });
  await userEvent.click(within(list).getAllByRole("button", { name: "Do this" })[0] as HTMLElement);
  expect(documentStore.getState().solved.findings.map(({ code }) => code)).not.toContain("loop-misfit");
});
