/** `npm run schema`: writes `public/drive.schema.json` from the schema that the parser checks with. */
import { writeFileSync } from "node:fs";
import { type ConversionConfig, type JsonSchema, toJsonSchema } from "@valibot/to-json-schema";
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

/** The JSON Schema (draft 2020-12) of a drive file, as text. */
export function schemaText(): string {
  const { $schema, ...rest } = toJsonSchema(DRIVE_FILE, {
    target: "draft-2020-12",
    typeMode: "input",
    // A number of JSON is always finite.
    ignoreActions: ["finite"],
    definitions: { shaft: SHAFT, gear: GEAR, mesh: MESH, port: PORT },
    overrideSchema,
  });
  const schema = { $schema, title: "Turnwise drive, version 1", description: WHAT_IT_LEAVES_OUT, ...rest };
  return `${JSON.stringify(schema, null, 2)}\n`;
}

/** Writes the schema to the file named, or to standard output. */
export function main(args: readonly string[]): number {
  const [file] = args;
  if (file === undefined) process.stdout.write(schemaText());
  else writeFileSync(file, schemaText());
  return 0;
}
