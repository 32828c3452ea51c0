/**
 * Pairs of gears as solids, judged by manifold-3d over one tooth pitch. By default each kind of pair; with SOAK set, the
 * whole list at 24 positions. Bounds: 1e-8 of a tooth outside, 1e-6 crown, 2e-5 inside (chords of a concave flank), all
 * at zero backlash with trimmed tips; 1e-4 at the screen's quality.
 */
import { describe, expect, test, vi } from "vitest";
import { indexDrive } from "../../../src/engine/placement/index-drive";
import { place } from "../../../src/engine/placement/place";
import { QUALITIES } from "../../../src/engine/teeth/spec";
import { toothFindings } from "../../../src/engine/teeth/tooth-findings";
import { differential, planetary } from "./drives";
import { judge, type PairOptions, pair, Table, turnsPerInput } from "./judge";

const isSoak = Boolean(process.env.SOAK);
const STEPS = isSoak ? 24 : 8;
const DEGREE = Math.PI / 180;
vi.setConfig({ testTimeout: isSoak ? 600_000 : 90_000 });
const crown = (z1: number, z2: number) => Math.acos(-z1 / z2) / DEGREE;

type Kind = "outside" | "crown" | "inside";
type Listed = [name: string, kind: Kind, options: PairOptions];
const EACH_KIND: Listed[] = [
  ["spur 20/50", "outside", { teeth: [20, 50] }],
  ["spur 12/60 with shifts", "outside", { teeth: [12, 60], shifts: [0.3, -0.3] }],
  ["ring 18/60", "inside", { teeth: [18, 60], isRing: true }],
  ["bevel 16/32 at 90", "outside", { teeth: [16, 32], angle: 90 }],
  ["bevel 20/30 at 30", "outside", { teeth: [20, 30], angle: 30 }],
  ["bevel 20/30 at 120", "outside", { teeth: [20, 30], angle: 120, isSecondPlus: true }],
  ["bevel 20/30 at 150, internal", "inside", { teeth: [20, 30], angle: 150 }],
  ["crown 15/45", "crown", { teeth: [15, 45], angle: crown(15, 45) }],
];
const MORE: Listed[] = [
  ["spur 17/17", "outside", { teeth: [17, 17] }],
  ["ring 20/80", "inside", { teeth: [20, 80], isRing: true }],
  ["bevel 24/54 at 90", "outside", { teeth: [24, 54], angle: 90 }],
  ["bevel 20/20 at 90", "outside", { teeth: [20, 20], angle: 90 }],
  ["bevel 17/43 at 90", "outside", { teeth: [17, 43], angle: 90 }],
  ...[15, 60, 75].map((angle): Listed => [`bevel 20/30 at ${angle}`, "outside", { teeth: [20, 30], angle }]),
  ["crown 20/30", "crown", { teeth: [20, 30], angle: crown(20, 30) }],
  ["bevel 20/60 at 150, internal", "inside", { teeth: [20, 60], angle: 150 }],
];
const LIMIT: Record<Kind, number> = { outside: 1e-8, crown: 1e-6, inside: 2e-5 };
const isWhole = (kind: Kind) => kind === "inside";

describe.each(isSoak ? [...EACH_KIND, ...MORE] : EACH_KIND)("%s", (_, kind, options) => {
  test("fine, zero backlash: hardly anything in common", () => {
    const { overlaps } = judge(pair(options), STEPS, { isWhole: isWhole(kind) });
    expect(overlaps[0]).toBeLessThanOrEqual(LIMIT[kind]);
  });
  test("as on the screen, zero backlash", () => {
    expect(judge(pair(options), STEPS, { quality: QUALITIES.bench }).overlaps[0]).toBeLessThanOrEqual(1e-4);
  });
  test("0.02 module of backlash on each gear: nothing in common, and the gap of theory", () => {
    const { overlaps, gaps, widest, specs } = judge(pair({ ...options, backlash: 0.04 }), STEPS, { gap: 0.2 });
    // Half the play stands on each side, square to the flank: j cos α / 2, at the toe smaller by its distance from the apex.
    const first = specs[0];
    const toe =
      first && Number.isFinite(first.coneDistance) ? (first.coneDistance - first.face) / first.coneDistance : 1;
    const theory = 0.04 * Math.cos(20 * DEGREE) * toe;
    expect(overlaps[0]).toBe(0);
    expect((gaps[0] ?? 0) / theory).toBeGreaterThanOrEqual(kind === "inside" ? 0.97 : 0.995);
    expect((widest[0] ?? 0) / theory).toBeLessThanOrEqual(1.1);
  });
});

describe("trains", () => {
  test("a planetary set with three planets", () => {
    expect(Math.max(...judge(planetary(18, 21, 3, true), isSoak ? 24 : 3).overlaps)).toBeLessThanOrEqual(2e-5);
  });
  test("a bevel differential", () => {
    expect(Math.max(...judge(differential(20, 12, 2), isSoak ? 24 : 4).overlaps)).toBeLessThanOrEqual(1e-8);
  });
});

describe("checks that must fail do", () => {
  const turned = (pitches: number, options: PairOptions) =>
    new Map([["B", (pitches * 2 * Math.PI) / options.teeth[1]]]);
  test.each([EACH_KIND[0], EACH_KIND[3], EACH_KIND[6], EACH_KIND[7]] as Listed[])(
    "%s out of phase",
    (_, __, options) => {
      expect(judge(pair(options), 4, { off: turned(0.003, options) }).overlaps[0]).toBeGreaterThan(1e-3);
      expect(judge(pair(options), 2, { off: turned(0.5, options) }).overlaps[0]).toBeGreaterThan(1);
    },
  );

  const findingsOf = (options: PairOptions) => {
    const data = pair(options);
    const index = indexDrive(data);
    return toothFindings(data, index, place(data, index));
  };
  test.each([
    [12, 36],
    [10, 30],
    [8, 24],
  ] as const)("%i/%i at 90: long tips overlap; trim or shifts cure it", (z1, z2) => {
    const options: PairOptions = { teeth: [z1, z2], angle: 90 };
    const untrimmed = { ...QUALITIES.fine, trim: false };
    expect(judge(pair(options), 24, { quality: untrimmed }).overlaps[0]).toBeGreaterThan(1e-4);
    expect(judge(pair(options), 8).overlaps[0]).toBeLessThanOrEqual(1e-8);
    expect(findingsOf(options).map(({ code }) => code)).toContain("tip-trimmed");
    const x = z1 === 12 ? 0.3 : 0.5;
    expect(judge(pair({ ...options, shifts: [x, -x] }), 8, { quality: untrimmed }).overlaps[0]).toBeLessThanOrEqual(
      1e-8,
    );
    expect(findingsOf({ ...options, shifts: [x, -x] }).map(({ code }) => code)).not.toContain("tip-trimmed");
  });
  test("tips that foul are refused, and solids agree: 30 in 36 fouls, 30 in 40 and 28 in 36 do not", () => {
    const [tight, free]: PairOptions[] = [
      { teeth: [30, 36], isRing: true },
      { teeth: [30, 40], isRing: true },
    ];
    if (!tight || !free) throw new Error("no pairs");
    expect(findingsOf(tight).map(({ code }) => code)).toContain("tips-foul");
    expect(findingsOf(free).map(({ code }) => code)).not.toContain("tips-foul");
    expect(judge(pair(tight), 3, { isWhole: true }).overlaps[0]).toBeGreaterThan(1e-3);
    expect(judge(pair(free), 3, { isWhole: true }).overlaps[0]).toBeLessThan(2e-5);
    expect(judge(pair({ teeth: [28, 36], isRing: true }), 3, { isWhole: true }).overlaps[0]).toBeLessThan(2e-5);
  });
  test("nearly equal internal bevels foul, equal ones turn into outside pairs and do not", () => {
    expect(findingsOf({ teeth: [20, 21], angle: 178 }).map(({ code }) => code)).toContain("tips-foul");
    expect(findingsOf({ teeth: [20, 20], angle: 175 }).map(({ code }) => code)).not.toContain("tips-foul");
  });
});

describe("drive by contact", () => {
  /** Where gear 2 touches, against the exact ratio, over one pitch: the error peak to peak, arc-seconds. */
  function transmissionError(options: PairOptions, segments: number, steps: number): number {
    const table = new Table(pair({ ...options, backlash: 0.04 }), { quality: { ...QUALITIES.fine, flank: segments } });
    const ratios = turnsPerInput(table.solved);
    const pitch = (2 * Math.PI) / options.teeth[0];
    const play = 0.08 / 2 / options.teeth[1];
    const errors: number[] = [];
    for (let step = 0; step < steps; step++) {
      const angles = ratios.map((ratio) => (ratio * pitch * step) / steps);
      const own = angles[1] ?? 0;
      const touches = (turn: number) => table.overlap(0, [angles[0] ?? 0, own + turn]) > 1e-10;
      // Gear 2 turned on through half the play: there theory has it touch.
      let [clear, touching] = [play - 90 / 206265, play + 90 / 206265];
      for (let i = 0; i < 11; i++) {
        const middle = (clear + touching) / 2;
        if (touches(middle)) touching = middle;
        else clear = middle;
      }
      errors.push(((clear + touching) / 2 - play) * 206265);
    }
    table.delete();
    return Math.max(...errors) - Math.min(...errors);
  }
  const listed: Listed[] = isSoak
    ? [...EACH_KIND, ...MORE]
    : [
        ["spur 20/50", "outside", { teeth: [20, 50] }],
        ["ring 18/60", "inside", { teeth: [18, 60], isRing: true }],
      ];
  test.each(listed)("%s: at most 30 arc-seconds at 16 segments (crown, inside 10)", (_, kind, options) => {
    expect(transmissionError(options, 16, isSoak ? 24 : 8)).toBeLessThanOrEqual(kind === "outside" ? 30 : 10);
  });
  test("the error is chord sag alone: it falls by 2.5 at least from 16 to 32 segments", () => {
    const options: PairOptions = { teeth: [17, 17] };
    const steps = isSoak ? 24 : 8;
    expect(transmissionError(options, 16, steps) / transmissionError(options, 32, steps)).toBeGreaterThanOrEqual(2.5);
  });
});
