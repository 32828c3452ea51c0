/** What the arrows of section and schematic say of the turns, and speeds of carried shafts, read back from the SVG. */
import { Quaternion, Vector3 } from "three";
import { describe, expect, it } from "vitest";
import { drawingOf } from "../../../src/engine/drawing/sheet";
import { svgOf } from "../../../src/engine/drawing/svg";
import { solve } from "../../../src/engine/solve";
import type { Solved, Vec3 } from "../../../src/engine/solved";
import { planetary } from "../../support/random-drives";
import { layer, readPaths, readSvg, type XY } from "./read-figure";
import { SAMPLES } from "./samples";

const vec = ([x, y, z]: Vec3): Vector3 => new Vector3(x, y, z);

interface Case {
  readonly name: string;
  readonly solved: Solved;
  readonly view: "section" | "schematic";
  readonly angle: "first" | "third";
  readonly mesh?: string;
}

const CASES: readonly Case[] = SAMPLES.flatMap(([name, solved]) => [
  ...(["first", "third"] as const).map((angle): Case => ({ name, solved, view: "schematic", angle })),
  ...solved.drive.meshes.flatMap(({ id }, i): Case[] =>
    solved.placement.meshes[i] ? [{ name, solved, view: "section", angle: "first", mesh: id }] : [],
  ),
]);

/** Where the eye stands, as the drawing itself says, and up and right on the sheet: z is up, and y where one looks along z. ISO 5456-2. */
function sheetOf(towards: Vec3) {
  const eye = vec(towards).normalize();
  const upright = Math.abs(eye.z) < 0.9 ? new Vector3(0, 0, 1) : new Vector3(0, 1, 0);
  const up = upright.addScaledVector(eye, -upright.dot(eye)).normalize();
  const right = up.clone().cross(eye);
  return {
    eye,
    flat: (p: Vector3): XY => [p.dot(right), -p.dot(up)],
    raised: ([x, y]: XY): Vector3 => right.clone().multiplyScalar(x).addScaledVector(up, -y),
  };
}

describe.each(CASES)("$name, $view $mesh, $angle angle", ({ solved, view, angle, mesh }) => {
  it("shows each turn as the solver has it, seen from there", () => {
    const drawing = drawingOf(solved, { view, angle, gears: "simplified", ...(mesh === undefined ? {} : { mesh }) });
    if ("trouble" in drawing) throw new Error(drawing.trouble);
    const towards = drawing.views.find(({ name }) => name === view)?.towards;
    if (!towards) throw new Error("the view doesn't say from where it is seen");
    const { eye, flat, raised } = sheetOf(towards);
    const svg = readSvg(svgOf(drawing));
    // A section leaves out what lies beside its plane: what it shows has its centre line there.
    const shown = new Set(readPaths(layer(svg, "section-centre")).map(({ part }) => part));
    const paths = readPaths(layer(svg, `${view}-arrows`)).filter(({ turn }) => turn !== undefined);
    solved.drive.shafts.forEach(({ id }, i) => {
      const velocity = solved.motion.angularVelocity[i];
      const own = paths.filter(({ part }) => part === id);
      const head = own.find(({ isFilled }) => isFilled);
      const turns = velocity != null && Math.hypot(...velocity) > 0;
      expect(head !== undefined).toBe(turns && (view === "schematic" || shown.has(id)));
      if (!velocity || !head) return;
      const [first, base] = head.lines;
      const tip = first?.from as XY;
      const foot: XY = [
        ((base?.from[0] ?? 0) + (base?.to[0] ?? 0)) / 2,
        ((base?.from[1] ?? 0) + (base?.to[1] ?? 0)) / 2,
      ];
      const way: XY = [tip[0] - foot[0], tip[1] - foot[1]];
      const step = new Quaternion().setFromAxisAngle(vec(velocity).normalize(), 1e-4);
      const arc = own.flatMap(({ arcs }) => arcs)[0];
      // A point moves by what the turn moves it: turned by three. Near the eye for a straight arrow, at its tip for a round one.
      const centre: XY | null = arc
        ? [(arc.from[0] + arc.to[0]) / 2, (arc.from[1] + arc.to[1]) / 2 - arc.rx * Math.SQRT1_2]
        : null;
      const point = centre ? raised([tip[0] - centre[0], tip[1] - centre[1]]) : eye.clone();
      const [x, y] = flat(point.clone().applyQuaternion(step).sub(point));
      const cosine = (x * way[0] + y * way[1]) / (Math.hypot(x, y) * Math.hypot(...way));
      // A round arrow stands for a turn whose axis may lean by up to 60 degrees from the eye: half and more of it lies along the arrow.
      expect(cosine).toBeGreaterThan(centre ? 0.4 : 0.99);
    });
  });
});

describe("the speed of a shaft that a carrier takes round", () => {
  // n_C = 70/(1 + 60/24) = 20; the planet turns (70 - 20) · 24/18 = 66.67 against its carrier, 46.67 against the ground (Willis).
  const solved = solve(
    planetary(24, 18, 60, 1, [
      { shaft: "S", role: "input", speed: 70 },
      { shaft: "R", role: "held" },
      { shaft: "C", role: "output" },
    ]),
  );
  const { drive } = solved;
  const planet = drive.shafts.findIndex(({ frame }) => frame !== undefined);

  it.each(["three", "schematic", "section"] as const)("is told as that against its carrier, in %s", (view) => {
    expect(Math.abs(solved.motion.speed[planet] ?? 0)).toBeCloseTo(66.667, 3);
    const drawing = drawingOf(solved, { view, angle: "first", gears: "simplified" });
    if ("trouble" in drawing) throw new Error(drawing.trouble);
    const texts = drawing.views
      .flatMap(({ layers }) => layers.labels)
      .flatMap((item) => (item.shape === "text" ? [item.text] : []));
    const own = texts.filter((text) => text.includes("66.67"));
    expect(own.length).toBeGreaterThan(0);
    for (const text of own) expect(text).toMatch(/, 66\.67 rev\/min on \S/);
    for (const text of texts.filter((text) => /, (70|20) rev\/min/.test(text))) expect(text).not.toContain(" on ");
  });
});
