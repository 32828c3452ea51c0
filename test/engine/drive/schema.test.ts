import { readFileSync } from "node:fs";
// An independent judge: a JSON Schema validator that knows nothing of the parser.
import { Ajv2020 } from "ajv/dist/2020";
import fc from "fast-check";
import * as v from "valibot";
import { describe, expect, it } from "vitest";
import { SCHEMAS } from "../../../src/cli/schema";
import { readDrive } from "../../../src/engine/drive/parse";
import { DRIVE_FILE } from "../../../src/engine/drive/schema";
import { driveFiles, mixer, press } from "./files";
import { AGAINST_RULES, AGAINST_SCHEMA, spoilt } from "./spoilt";

const published = readFileSync("public/drive.schema.json", "utf8");
const validate = new Ajv2020({ strict: true, strictTypes: false, strictRequired: false }).compile(
  JSON.parse(published),
);
const passesPublished = (value: unknown): boolean => validate(value);
const passesSource = (value: unknown): boolean => v.safeParse(DRIVE_FILE, value).success;

describe("public/drive.schema.json", () => {
  it("is what the parser's schema gives (npm run schema writes it)", () => {
    expect(published).toBe(SCHEMAS["drive.schema.json"]());
  });

  it("passes the worked examples", () => {
    expect([mixer(), press()].map(passesPublished)).toEqual([true, true]);
  });

  it.each(AGAINST_SCHEMA.map((fault) => [fault.name, fault] as const))(
    "refuses what the parser refuses: %s",
    (_, fault) => {
      const file = spoilt(fault);
      expect([passesPublished(file), passesSource(file)]).toEqual([false, false]);
    },
  );

  it.each(AGAINST_RULES.map((fault) => [fault.name, fault] as const))("leaves to the parser: %s", (_, fault) => {
    const file = spoilt(fault);
    expect([passesPublished(file), passesSource(file)]).toEqual([true, true]);
    expect(readDrive(file).faults).toBeDefined();
  });

  it("passes 500 random right drives", () => {
    fc.assert(
      fc.property(driveFiles, (file) => passesPublished(file) && passesSource(file)),
      { numRuns: 500 },
    );
  });

  it("agrees with the parser's schema on 2,000 drives in which one random value is put in a random place", () => {
    const oddities = fc.oneof(
      fc.jsonValue({ maxDepth: 1 }),
      fc.constantFrom(0, -1, 1, 180, 45, 12.5, "+", "spur", "ground", [], {}),
    );
    fc.assert(
      fc.property(
        driveFiles,
        oddities,
        fc.nat(),
        fc.boolean(),
        fc.constantFrom("teeth", "x-", "y", "speed"),
        (file, odd, pick, drop, key) => {
          const value: unknown = JSON.parse(JSON.stringify(file));
          const places: [Record<string, unknown>, string][] = [];
          const visit = (object: unknown): void => {
            if (typeof object !== "object" || object === null) return;
            for (const name of Object.keys(object)) {
              places.push([object as Record<string, unknown>, name]);
              visit((object as Record<string, unknown>)[name]);
            }
            if (!Array.isArray(object)) places.push([object as Record<string, unknown>, key]);
          };
          visit(value);
          const [object, name] = places[pick % places.length] ?? [{}, ""];
          if (drop && !Array.isArray(object)) delete object[name];
          else object[name] = odd;
          expect(passesSource(value)).toBe(passesPublished(value));
        },
      ),
      { numRuns: 2000 },
    );
  });
});
