/** Drives as codes: every drive there and back byte for byte, short, and the same for ever. */
import { createHash } from "node:crypto";
import { readdirSync, readFileSync } from "node:fs";
import { inflateRawSync, crc32 as zlibCrc32 } from "node:zlib";
import fc from "fast-check";
import { describe, expect, it, vi } from "vitest";
import { newDrive } from "../../../src/engine/drive/defaults";
import { parseDrive } from "../../../src/engine/drive/parse";
import type { Drive } from "../../../src/engine/drive/types";
import { writeDrive } from "../../../src/engine/drive/write";
import { decodeCode, encodeDrive } from "../../../src/exchange/share/code";
import { crc32 } from "../../../src/exchange/share/crc32";
import { dictionary1 } from "../../../src/exchange/share/dictionary-1";
import { ALL_PAIRS, chain, differential, planetary, randomTree } from "../../support/random-drives";
import { anyDrive } from "./any-drive";
import made from "./codes-1.json";

const SOAK = process.env.SOAK === "1";
const CASES = SOAK ? 3000 : 150;
/** ms for all of them. */
const PATIENCE = SOAK ? 600_000 : 60_000;

const drive = (text: string): Drive => {
  const { drive, faults } = parseDrive(text);
  if (!drive) throw new Error(JSON.stringify(faults));
  return drive;
};
const FILES = [
  ...readdirSync("public/samples").map((name) => `public/samples/${name}`),
  "test/support/mixer.drive.json",
  "src/app/opening-drive.json",
];
const fromFile = (path: string): Drive => drive(readFileSync(path, "utf8"));

/** What comes back, as a file; or what is wrong. */
const thereAndBack = (given: Drive): string => {
  const decoded = decodeCode(encodeDrive(given));
  return decoded.drive ? writeDrive(decoded.drive) : decoded.trouble;
};

vi.setConfig({ testTimeout: PATIENCE });

describe("a drive comes back byte for byte", () => {
  it.each(FILES)("%s", (path) => expect(thereAndBack(fromFile(path))).toBe(writeDrive(fromFile(path))));

  it("a new one, trees, chains, planetary sets and differentials", () => {
    for (const one of [newDrive(), planetary(24, 18, 60, 3), differential(24, 16), chain(11)]) {
      expect(thereAndBack(one)).toBe(writeDrive(one));
    }
    fc.assert(
      fc.property(fc.nat(), fc.integer({ min: 1, max: 40 }), fc.boolean(), (seed, shafts, shuffled) => {
        const tree = randomTree(seed, shafts, Math.min(shafts - 1, 6), { pairs: ALL_PAIRS, losses: true, shuffled });
        expect(thereAndBack(tree)).toBe(writeDrive(tree));
      }),
      { numRuns: CASES },
    );
  });

  it("with anything that the format allows in its texts, numbers, ids and x- keys", () => {
    fc.assert(
      fc.property(anyDrive, (text) => {
        const given = drive(text);
        expect(thereAndBack(given)).toBe(writeDrive(given));
      }),
      { numRuns: CASES },
    );
  });

  it("with more digits than a double holds", () => {
    const given = drive(
      writeDrive(fromFile("public/samples/juice-press.drive.json"))
        .replace(/"diameter": 60/, '"diameter": 60.000000000000000000000000001')
        .replace(/"speed": [\d.-]+/, '"speed": 0.1000000000000000055511151231257827e3'),
    );
    expect(writeDrive(given)).toContain("60.000000000000000000000000001");
    expect(writeDrive(given)).toContain("0.1000000000000000055511151231257827e3");
    expect(thereAndBack(given)).toBe(writeDrive(given));
  });

  it("with half a surrogate pair, a byte order mark and a NUL in its texts", () => {
    const given = { ...newDrive(), title: "\ud83d", notes: "\ufeffa\0b\u2028\udc00😀" };
    expect(thereAndBack(given)).toBe(writeDrive(given));
  });

  it("1,000 shafts, within the limits of a link", () => {
    const large = randomTree(7, 1000, 12, { pairs: ALL_PAIRS, losses: true });
    expect(thereAndBack(large)).toBe(writeDrive(large));
  });
});

describe("how long a link is, with its #", () => {
  const length = (given: Drive): number => encodeDrive(given).length + 1;

  it.each(FILES)("%s: within 300 characters", (path) => {
    expect(length(fromFile(path))).toBeLessThanOrEqual(300);
  });

  it.each([
    [4, 300],
    [12, 1200],
  ])("random drives of %i shafts: within %i", (shafts, most) => {
    for (let seed = 0; seed < CASES; seed++) {
      for (const depth of [2, shafts - 1]) {
        expect(
          length(randomTree(seed, shafts, depth, { pairs: ALL_PAIRS, losses: true })),
          `seed ${seed}`,
        ).toBeLessThanOrEqual(most);
      }
    }
  });

  it("12 shafts with a name of their own, notes, and an azimuth of 16 digits each: within 1,200", () => {
    for (let seed = 0; seed < 20; seed++) {
      const tree = randomTree(seed, 12, 5, { pairs: ALL_PAIRS, losses: true });
      const own = {
        ...tree,
        notes:
          "The kite pulls its line off the first drum, and the governor lets no drum run away; which of them winds slowest?",
        shafts: tree.shafts.map((shaft, i) => ({ ...shaft, name: `Kite line ${"QXJZVKWBYPFG"[i]}${i * 37}` })),
        meshes: tree.meshes.map((mesh, i) => ({ ...mesh, azimuth: (360 * (i + 1)) / 7.1 })),
      };
      expect(length(own)).toBeLessThanOrEqual(1200);
      expect(thereAndBack(own)).toBe(writeDrive(own));
    }
  });
});

describe("codes made once", () => {
  it.each(made.map(({ code, sha256, title }) => [title, code, sha256]))(
    "%s opens as it did",
    (_title, code, sha256) => {
      const decoded = decodeCode(code);
      expect(decoded.trouble).toBeUndefined();
      const text = writeDrive(decoded.drive as Drive);
      expect(createHash("sha256").update(text).digest("hex")).toBe(sha256);
    },
  );

  it("refer to a dictionary that never changes", () => {
    expect(createHash("sha256").update(dictionary1()).digest("hex")).toBe(made[0]?.dictionary);
  });

  it("can be unfolded by zlib itself", () => {
    const bytes = Buffer.from((made[0]?.code ?? "").slice(3), "base64url");
    const form = inflateRawSync(bytes.subarray(0, -4), { dictionary: dictionary1() });
    expect(zlibCrc32(form)).toBe(bytes.readUInt32BE(bytes.length - 4));
  });
});

describe("the check sum", () => {
  it("is the CRC-32 of the standards: its published check value", () => {
    // "123456789" gives CBF43926 in the catalogue of parametrised CRC algorithms, CRC-32/ISO-HDLC.
    expect(crc32(new TextEncoder().encode("123456789"))).toBe(0xcbf43926);
    const bytes = Buffer.from(encodeDrive(newDrive()));
    expect(crc32(bytes)).toBe(zlibCrc32(bytes));
  });
});
