/** The dial of directions by keys: hours, quarter turns, the first and the last hour. Degrees clockwise from twelve. */
import { fireEvent, render, screen } from "@testing-library/react";
import { describe, expect, it, vi } from "vitest";
import { DirectionDial } from "../../src/panels/fields/direction-dial";

const ledTo = (clockwise: number, key: string, shiftKey = false): number | undefined => {
  const onChange = vi.fn<(degrees: number) => string | null>(() => null);
  const { unmount } = render(
    <DirectionDial label="Direction" clockwise={clockwise} words="somewhere" {...{ onChange }} />,
  );
  fireEvent.keyDown(screen.getByRole("slider"), { key, shiftKey });
  unmount();
  return onChange.mock.calls[0]?.[0];
};

describe("keys on the dial", () => {
  it.each([
    [0, "ArrowRight", false, 30],
    [0, "ArrowLeft", false, 330],
    [330, "ArrowDown", false, 0],
    [10, "ArrowRight", false, 30],
    [10, "ArrowUp", false, 0],
    [0, "ArrowRight", true, 90],
    [30, "ArrowUp", true, 300],
    [0, "PageDown", false, 90],
    [0, "PageUp", false, 270],
    [10, "PageUp", false, 300],
    [200, "Home", false, 0],
    [200, "End", false, 330],
  ])("from %i degrees, %s (Shift %s) leads to %i", (clockwise, key, shiftKey, expected) => {
    expect(ledTo(clockwise, key, shiftKey)).toBe(expected);
  });

  it("other keys are left to the page", () => {
    expect(ledTo(0, "a")).toBeUndefined();
  });
});
