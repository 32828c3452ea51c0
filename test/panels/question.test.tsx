/** The question: hidden by ticks, guessed, revealed right and wrong, by keyboard and by ear; and nothing of it told by any panel. */
import { act, render, screen, within } from "@testing-library/react";
import userEvent from "@testing-library/user-event";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { questionOf } from "../../src/engine/drive/question";
import { AddStage } from "../../src/panels/add-stage/add-stage";
import { Findings } from "../../src/panels/findings";
import { PartsList } from "../../src/panels/parts-list/parts-list";
import { QuestionPanel } from "../../src/panels/question/question-panel";
import { Readouts } from "../../src/panels/readouts/readouts";
import { StructurePanel } from "../../src/panels/structure/structure-panel";
import { Workings } from "../../src/panels/workings/workings";
import { advance, clockStore, crank, now, setPlaying, step, watchMesh } from "../../src/store/clock";
import { documentStore, reveal, undo } from "../../src/store/document";
import { settle } from "../../src/store/settled";
import { setView, viewStore } from "../../src/store/view";
import { drive, MIXER, open, violations } from "./support";

/** The mixer, with figures of its output C hidden: 5 turns of the motor give 1, 290 rev/min, clockwise or not. */
const asking = (...figures: string[]) => ({ ...MIXER, "x-question": { hide: [{ shaft: "C", figures }] } });
const said = (): string => viewStore.getState().announcement;
const refusals = (): readonly string[] => screen.getAllByRole("alert").map(({ textContent }) => textContent ?? "");
const selected = () => viewStore.getState().selection;

/** As the solver has it with nothing hidden, by way of a reveal. */
const truth = () => {
  act(() => reveal(true));
  const { solved } = documentStore.getState();
  act(() => reveal(false));
  return solved;
};

beforeEach(() => open(MIXER));
afterEach(() => {
  act(() => setView({ aside: null, adding: null, asking: null, ghost: null }));
  vi.restoreAllMocks();
});

describe("the teacher's side", () => {
  it("hides by one tick, as one undo step, and takes the question away again", async () => {
    const user = userEvent.setup();
    render(<QuestionPanel />);
    await user.click(screen.getByRole("checkbox", { name: "Hide the direction of Mixer" }));
    expect(questionOf(drive())).toEqual(new Map([["C", new Set(["direction"])]]));
    expect(screen.getByRole("form", { name: "Your guess" })).toBeInTheDocument();
    act(undo);
    expect(drive()["x-question"]).toBeUndefined();
    await user.click(screen.getByRole("checkbox", { name: "Hide the ratio of Mixer" }));
    await user.click(screen.getByRole("button", { name: "Take the question away" }));
    expect(drive()["x-question"]).toBeUndefined();
    expect(screen.queryByRole("form")).toBeNull();
  });

  it("offers nothing that the drive gives", () => {
    render(<QuestionPanel />);
    expect(screen.queryByRole("checkbox", { name: "Hide the speed of Motor" })).toBeNull();
    expect(screen.getByRole("checkbox", { name: "Hide the torque of Motor" })).toBeInTheDocument();
    expect(screen.queryByRole("checkbox", { name: "Hide the torque of Mixer" })).toBeNull();
  });
});

describe("the focus", () => {
  it("goes into the panel where somebody opened it, and stays at the beginning of a page that has just come", () => {
    open(asking("ratio"));
    const { unmount } = render(<QuestionPanel />);
    expect(document.body).toHaveFocus();
    unmount();
    render(<button type="button">Question</button>);
    act(() => screen.getByRole("button").focus());
    render(<QuestionPanel />);
    expect(screen.getByRole("region", { name: "Guess and reveal" })).toHaveFocus();
  });
});

describe("while presenting", () => {
  afterEach(() => act(() => setView({ presenting: false })));

  it("can be guessed and revealed, but what it hides can't be changed", () => {
    open(asking("ratio"));
    act(() => setView({ presenting: true }));
    render(<QuestionPanel />);
    expect(screen.getByRole("button", { name: "Reveal" })).toBeInTheDocument();
    expect(screen.queryByRole("checkbox")).toBeNull();
    expect(screen.queryByRole("button", { name: "Take the question away" })).toBeNull();
    act(() => setView({ presenting: false }));
    expect(screen.getByRole("checkbox", { name: "Hide the ratio of Mixer", hidden: true })).toBeInTheDocument();
  });

  it("a drive that asks nothing says so", () => {
    act(() => setView({ presenting: true }));
    render(<QuestionPanel />);
    expect(screen.getByText("The drive asks nothing.")).toBeInTheDocument();
  });
});

describe("hidden", () => {
  const everything = () => (
    <>
      <Readouts />
      <PartsList />
      <Workings />
      <Findings />
      <StructurePanel />
    </>
  );

  it("no panel tells it, and each says so", () => {
    open(asking("direction", "ratio"));
    act(settle);
    const { container } = render(everything());
    const text = container.textContent ?? "";
    expect(text).not.toMatch(/\b290\b/);
    expect(text).not.toMatch(/turns of Motor give \d+ of Mixer/);
    // 40 N·m at the mixer are 8.247 at the motor: that would tell the ratio too.
    expect(text).not.toMatch(/8\.247|20\.62|1252/);
    expect(text).not.toMatch(/clockwise seen from the mixer end/);
    expect(screen.getByText(/The workings are hidden by the question/)).toBeInTheDocument();
    expect(screen.getByText(/Findings that tell how the drive turns are hidden/)).toBeInTheDocument();
    const card = screen.getByRole("article", { name: "Mixer, output" });
    expect(within(card).getAllByText("hidden by the question").length).toBeGreaterThan(0);
  });

  it("a hidden direction leaves the speed as a size", () => {
    open(asking("direction"));
    render(<Readouts />);
    const card = screen.getByRole("article", { name: "Mixer, output" });
    expect(within(card).getByText("290 rev/min")).toBeInTheDocument();
    expect(card.textContent).not.toMatch(/clockwise/);
  });

  it("nothing turns, by itself or by hand", () => {
    open(asking("speed"));
    setPlaying(true);
    expect(advance(1)).toBe(false);
    expect(crank(0, 1)).toBe(false);
    watchMesh("m1");
    step(1);
    watchMesh(null);
    expect(now.time).toBe(0);
  });

  it("a stage, a wish or a ghost that is asked for stays closed, and the question is shown", () => {
    open(asking("ratio"));
    const solved = truth();
    render(<AddStage />);
    for (const patch of [
      { adding: { shaft: "C" } },
      { asking: { kind: "wish", shaft: "C" } as const },
      { ghost: { solved, shafts: ["C"] } },
    ]) {
      act(() => setView({ aside: null, ...patch }));
      expect(viewStore.getState()).toMatchObject({ adding: null, asking: null, ghost: null, aside: "question" });
      expect(said()).toMatch(/^Closed until the question is revealed/);
    }
  });

  it("stays hidden where the learner would have the drive itself give it, or show it on a new part", async () => {
    const user = userEvent.setup();
    open(asking("direction", "ratio"));
    const before = drive();
    render(<PartsList />);
    await user.selectOptions(screen.getByLabelText("Driven now by"), "Mixer");
    expect(refusals()).toContain("This would give away what the question asks of Mixer: reveal it first.");
    await user.click(screen.getByRole("button", { name: "Commands for shaft Mixer" }));
    await user.click(await screen.findByRole("menuitem", { name: "Duplicate this stage" }));
    expect(refusals()).toContain("New parts would give away what the question hides: reveal it first.");
    expect(drive()).toBe(before);
    expect(documentStore.getState().solved.veil).toBeDefined();
    await user.selectOptions(screen.getByLabelText("Driven now by"), "Cross shaft");
    expect(drive()).not.toBe(before);
    act(() => reveal(true));
    await user.selectOptions(screen.getByLabelText("Driven now by"), "Mixer");
    expect(drive().ports).toContainEqual(expect.objectContaining({ shaft: "C", role: "input" }));
  });

  it("what was open when it is hidden closes", () => {
    act(() => setView({ adding: { shaft: "C" } }));
    const user = userEvent.setup();
    render(<QuestionPanel />);
    return user.click(screen.getByRole("checkbox", { name: "Hide the speed of Mixer" })).then(() => {
      expect(viewStore.getState().adding).toBeNull();
      expect(documentStore.getState().was).toBeNull();
    });
  });

  it("a drive that is opened with a question shows its panel, hidden even where the last one was revealed", () => {
    open(asking("ratio"));
    act(() => reveal(true));
    open(asking("ratio"));
    expect(viewStore.getState().aside).toBe("question");
    expect(documentStore.getState().solved.veil).toBeDefined();
  });
});

describe("a guess", () => {
  it("that is right is told so; the drive turns", async () => {
    const user = userEvent.setup();
    open(asking("direction", "ratio"));
    const word = mixerWord();
    setPlaying(false);
    render(<QuestionPanel />);
    const buttons = screen.getAllByRole("button", { name: /^Mixer (counter)?clockwise seen from the mixer end$/ });
    expect(buttons).toHaveLength(2);
    const right = buttons.find((one) => one.textContent?.startsWith(word));
    await user.click(right as HTMLElement);
    expect(right).toHaveAttribute("aria-pressed", "true");
    await user.type(screen.getByRole("textbox", { name: "Turns of Motor" }), "10");
    await user.type(screen.getByRole("textbox", { name: "Turns of Mixer" }), "2{Enter}");
    expect(said()).toMatch(
      /^Mixer: Right: 5 turns of Motor give 1 of Mixer, (counter)?clockwise seen from the mixer end\.$/,
    );
    expect(documentStore.getState()).toMatchObject({ isRevealed: true });
    expect(documentStore.getState().solved.veil).toBeUndefined();
    expect(clockStore.getState().playing).toBe(true);
    expect(selected()).toBeNull();
  });

  it("with the bevel on the other side is pointed at its mesh", async () => {
    const user = userEvent.setup();
    open(asking("direction"));
    const word = mixerWord();
    render(<QuestionPanel />);
    const wrong = screen
      .getAllByRole("button", { name: /^Mixer (counter)?clockwise/ })
      .find((one) => !one.textContent?.startsWith(word));
    await user.click(wrong as HTMLElement);
    await user.click(screen.getByRole("button", { name: "Reveal" }));
    expect(said()).toContain("The guess went another way at mesh m2, 16 drives 32");
    expect(said()).toContain("mounted on the other side");
    expect(selected()).toEqual({ kind: "mesh", id: "m2" });
    expect(screen.getByRole("button", { name: "Show mesh m2" })).toBeInTheDocument();
    await user.click(screen.getByRole("button", { name: "Hide again" }));
    expect(documentStore.getState().solved.veil).toBeDefined();
  });

  it("with the ratio of the first mesh inverted is pointed there", async () => {
    const user = userEvent.setup();
    open(asking("ratio"));
    render(<QuestionPanel />);
    // 50/20 · 16/32 instead of 20/50 · 16/32.
    await user.type(screen.getByRole("textbox", { name: /^Ratio of Mixer/ }), "5/4{Enter}");
    expect(said()).toContain("at mesh m1, 20 drives 50");
    expect(selected()).toEqual({ kind: "mesh", id: "m1" });
  });

  it.each(["abc", "1/0", "2,5", "-", "10^400"])(
    "%s is answered beside its field, and nothing is revealed",
    async (bad) => {
      const user = userEvent.setup();
      open(asking("ratio", "speed"));
      render(<QuestionPanel />);
      const ratio = screen.getByRole("textbox", { name: /^Ratio of Mixer/ });
      await user.type(ratio, bad);
      await user.type(screen.getByRole("textbox", { name: "Speed of Mixer, rev/min" }), "290");
      await user.click(screen.getByRole("button", { name: "Reveal" }));
      expect(documentStore.getState().isRevealed).toBe(false);
      expect(ratio).toBeInvalid();
      expect(ratio).toHaveAccessibleDescription(/^[^.]+( [^.]*)?.*\.$/);
      await vi.waitFor(() => expect(ratio).toHaveFocus());
      expect(said()).toBe("One guess can't be read.");
      await user.clear(ratio);
      await user.click(screen.getByRole("button", { name: "Reveal" }));
      expect(said()).toBe("Mixer: Right: 290 rev/min.");
    },
  );

  it("is copied as text, before the reveal without any answer in it", async () => {
    const user = userEvent.setup();
    open(asking("ratio", "direction"));
    render(<QuestionPanel />);
    await user.type(screen.getByRole("textbox", { name: /^Ratio of Mixer/ }), "4:1");
    const write = vi.spyOn(navigator.clipboard, "writeText");
    await user.click(screen.getByRole("button", { name: "Copy my answers" }));
    expect(write).toHaveBeenLastCalledWith(
      "My answers to “Right-angle mixer”\nMixer: 4 turns of Motor give 1 of Mixer",
    );
    write.mockRejectedValue(new Error("no"));
    await user.click(screen.getByRole("button", { name: "Copy my answers" }));
    expect(await screen.findByRole("textbox", { name: /copy it by hand/ })).toHaveValue(write.mock.calls[0]?.[0] ?? "");
  });
});

describe("what is hidden and can't be guessed", () => {
  it.each([
    ["torque", { ports: [{ shaft: "A", role: "input", speed: 1450 }] }, "neither a load nor a supply is given"],
    ["ratio", { ports: [] }, "a ratio needs one input that turns"],
  ])("a %s is revealed all the same, and it says why it isn't asked", async (figure, change, why) => {
    const user = userEvent.setup();
    open({ ...asking(figure), ...change });
    expect(documentStore.getState().solved.veil).toBeDefined();
    const { container } = render(<QuestionPanel />);
    expect(screen.getByText(`Its ${figure} is hidden but not asked: ${why}.`)).toBeInTheDocument();
    expect(screen.queryByRole("button", { name: "Copy my answers" })).toBeNull();
    await user.click(screen.getByRole("button", { name: "Reveal" }));
    expect(documentStore.getState().solved.veil).toBeUndefined();
    expect(said()).toBe(
      figure === "torque"
        ? "Revealed: the drive turns, and every figure is shown."
        : "Revealed: every figure is shown. Nothing turns.",
    );
    expect(screen.getByRole("button", { name: "Hide again" })).toHaveFocus();
    expect(container.textContent).not.toMatch(/in truth/);
    expect(await violations(container)).toEqual([]);
  });
});

describe("choices", () => {
  it("A to D are counted, and nothing of them is kept in the drive", async () => {
    const user = userEvent.setup();
    open(asking("ratio", "direction"));
    const before = drive();
    const { container } = render(<QuestionPanel />);
    await user.click(screen.getByText("Choices for a show of hands"));
    const list = screen.getByRole("list", { name: "Choices for Mixer" });
    expect(within(list).getAllByRole("listitem")).toHaveLength(4);
    await user.click(screen.getByRole("button", { name: "One hand more for B" }));
    await user.click(screen.getByRole("button", { name: "One hand more for B" }));
    await user.click(screen.getByRole("button", { name: "One hand less for B" }));
    expect(said()).toBe("B: 1");
    expect(within(list).queryByText(/right/)).toBeNull();
    expect(drive()).toBe(before);
    expect(await violations(container)).toEqual([]);
    await user.click(screen.getByRole("button", { name: "Reveal" }));
    expect(within(list).getAllByText(/– right/)).toHaveLength(1);
    expect(await violations(container)).toEqual([]);
  });
});

describe("a drive whose motion isn't fixed", () => {
  it("says what is missing", async () => {
    const user = userEvent.setup();
    open({ ...asking("direction"), ports: [] });
    render(<QuestionPanel />);
    await user.click(screen.getAllByRole("button", { name: /clockwise/ })[0] as HTMLElement);
    await user.click(screen.getByRole("button", { name: "Reveal" }));
    expect(said()).toMatch(/doesn't fix how this shaft turns/);
  });
});

/** Which way the readouts say that the mixer turns once it is revealed. */
function mixerWord(): string {
  act(() => reveal(true));
  const { container, unmount } = render(<Readouts />);
  const text = container.querySelector('[data-part="shaft C"] b')?.textContent ?? "";
  unmount();
  act(() => reveal(false));
  return text;
}
