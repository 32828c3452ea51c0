/** `npm run schema`: writes `public/drive.schema.json` and `public/lesson.schema.json` from the schemas that the parsers check with. */
import { writeFileSync } from "node:fs";
import { join } from "node:path";
import { type ConversionConfig, type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
import type { GenericSchema } from "valibot";
import { LESSON_FILE, STEP } from "../engine/drive/lesson-schema";
import { DRIVE_FILE, GEAR, MESH, PORT, SHAFT } from "../engine/drive/schema";
import type { RecordRules } from "../engine/drive/schema-parts";

const WHAT_IT_LEAVES_OUT =
  "Beyond this schema a reader checks that ids are unique and name parts that exist, that gears of a mesh go together " +
  "and sit on two shafts, that shaftAngle stands on bevel gears and cones alone and normalForce and friction on " +
  "friction pairs alone, that some shaft has a pose, with ref not along its axis, that no shaft carries itself or is " +
  "coaxial with itself by way of others, and that a shaft has one port at most.";

/** What valibot's own conversion does not know of `schema-parts.ts`: `x-` keys, keys that stand apart, limits of lists. */
const overrideSchema: ConversionConfig["overrideSchema"] = ({ valibotSchema, jsonSchema }) => {
  const parts = valibotSchema as { readonly rules?: RecordRules; readonly limit?: number; readonly count?: number };
  if (parts.rules) {
    const apart = parts.rules.apart?.map(({ keys }): JsonSchema => ({ not: { required: [...keys] } }));
    return {
      ...jsonSchema,
      patternProperties: { "^x-": {} },
      additionalProperties: false,
      ...(apart ? { allOf: apart } : {}),
    };
  }
  if (parts.limit !== undefined) return { ...jsonSchema, maxItems: parts.limit };
  if (parts.count !== undefined) return { ...jsonSchema, minItems: parts.count, maxItems: parts.count };
  return undefined;
};

const OF_A_LESSON =
  "A reader checks too that each step names a drive of the lesson, itself or a step before it, that the parts it names are in that " +
  "drive, that drives have names of their own and are right as files are, and that a question in words has two choices or more, " +
  "one of them right. A drive's own lesson, under its x-lesson, is { title, steps } with steps of the same form.";

const DRIVE_PARTS = { shaft: SHAFT, gear: GEAR, mesh: MESH, port: PORT };

function textOf(file: GenericSchema, definitions: Record<string, GenericSchema>, title: string, description: string) {
  const { $schema, ...rest } = toJsonSchema(file, {
    target: "draft-2020-12",
    typeMode: "input",
    // A number of JSON is always finite.
    ignoreActions: ["finite"],
    definitions,
    overrideSchema,
  });
  return `${JSON.stringify({ $schema, title, description, ...rest }, null, 2)}\n`;
}

/** The JSON Schemas (draft 2020-12) of a drive file and of a lesson file, as texts by the names of their files. */
export const SCHEMAS = {
  "drive.schema.json": () => textOf(DRIVE_FILE, DRIVE_PARTS, "Turnwise drive, version 1", WHAT_IT_LEAVES_OUT),
  "lesson.schema.json": () =>
    textOf(LESSON_FILE, { ...DRIVE_PARTS, drive: DRIVE_FILE, step: STEP }, "Turnwise lesson, version 1", OF_A_LESSON),
} as const;

/** Writes the schemas into the folder named; without one that of a drive to standard output. */
export function main(args: readonly string[]): number {
  const [folder] = args;
  if (folder === undefined) process.stdout.write(SCHEMAS["drive.schema.json"]());
  else for (const [name, text] of Object.entries(SCHEMAS)) writeFileSync(join(folder, name), text());
  return 0;
}
