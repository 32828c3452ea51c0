/**
 * Three shapes for the schema, built on valibot's own but stricter: an object takes only its keys and `x-` ones (and a
 * list is none), a choice among objects goes by one key alone, and a list has a limit that is seen before its items.
 * They check and never copy; defaults are filled in by the makers of `defaults.ts`.
 */
import * as v from "valibot";
import { isExtra } from "./defaults";
import { quote } from "./describe";

type Issue = v.BaseIssue<unknown>;
type Path = NonNullable<Issue["path"]>;
type Schema = v.GenericSchema;

/** What a run of a schema works on; valibot's own type of it can't be written to. */
interface Dataset {
  typed: boolean;
  value: unknown;
  issues?: Issue[];
}

const begin = (unknown: v.UnknownDataset): Dataset => Object.assign(unknown as unknown as Dataset, { typed: true });

/** An issue whose message is a whole sentence; that of any other says only what is expected. */
export const WHOLE_SENTENCE = "whole_sentence";

export const isRecord = (value: unknown): value is Record<string, unknown> =>
  typeof value === "object" && value !== null && !Array.isArray(value);

/** The object's own value, so that no key of every object's prototype is taken for one of the file. */
export const own = (object: Record<string, unknown>, key: string): unknown =>
  Object.hasOwn(object, key) ? object[key] : undefined;

function addIssue(dataset: Dataset, type: string, message: string, input: unknown, key?: string | number): void {
  const path =
    key === undefined ? undefined : ([{ type: "unknown", origin: "value", input: null, key, value: input }] as Path);
  const issue: Issue = { kind: "schema", type, input, expected: null, received: "", message, path };
  dataset.issues ??= [];
  dataset.issues.push(issue);
  dataset.typed = false;
}

/** Runs the schema on the value in the place `key` and takes over what it finds. */
function runAt(dataset: Dataset, schema: Schema, value: unknown, key: string | number, config: v.Config<Issue>): void {
  const { issues } = schema["~run"]({ value }, config);
  if (!issues) return;
  dataset.issues ??= [];
  for (const issue of issues) {
    const place = { type: "unknown", origin: "value", input: null, key, value } as const;
    if (issue.path) issue.path.unshift(place);
    else (issue as { path?: Path }).path = [place];
    dataset.issues.push(issue);
  }
  dataset.typed = false;
}

const isLeftOut = (schema: { readonly type: string }): boolean => schema.type === "optional";

/** What a schema expects, in words: its own message. */
const expectedBy = (schema: Schema): string => {
  const inner = "wrapped" in schema ? (schema.wrapped as Schema) : schema;
  return "message" in inner && typeof inner.message === "string" ? inner.message : "a value";
};

export interface RecordRules {
  /** What this is, in words: "a spur or internal gear". */
  readonly name: string;
  /** Keys of which only one may stand, each with the reason. */
  readonly apart?: readonly { readonly keys: readonly [string, string]; readonly because: string }[];
  /** Keys of its brothers, each with the reason why it isn't one of this kind's. */
  readonly strange?: Readonly<Record<string, string>>;
}

export type RecordSchema<E extends v.ObjectEntries> = v.LooseObjectSchema<E, string> & { readonly rules: RecordRules };

/** An object with these keys and any that begin with `x-`. */
export function record<const E extends v.ObjectEntries>(entries: E, rules: RecordRules): RecordSchema<E> {
  const expected = `an object, ${rules.name}`;
  const known = new Map<string, Schema>(Object.entries(entries) as [string, Schema][]);
  const run = (unknown: v.UnknownDataset, config: v.Config<Issue>): Dataset => {
    const dataset = begin(unknown);
    const input = dataset.value;
    if (!isRecord(input)) {
      addIssue(dataset, "record", expected, input);
      return dataset;
    }
    for (const [key, schema] of known) {
      const value = own(input, key);
      if (value !== undefined) runAt(dataset, schema, value, key, config);
      else if (!isLeftOut(schema)) addIssue(dataset, "record", expectedBy(schema), undefined, key);
    }
    for (const key of Object.keys(input)) {
      if (known.has(key) || isExtra(key) || input[key] === undefined) continue;
      addIssue(dataset, WHOLE_SENTENCE, unknownKey(key, rules, known), input[key], key);
    }
    for (const { keys, because } of rules.apart ?? []) {
      if (keys.every((key) => own(input, key) !== undefined)) {
        addIssue(dataset, WHOLE_SENTENCE, `${keys[0]} and ${keys[1]} stand together; ${because}`, undefined, keys[1]);
      }
    }
    return dataset;
  };
  return { ...v.looseObject(entries, expected), rules, "~run": run } as unknown as RecordSchema<E>;
}

function unknownKey(key: string, rules: RecordRules, known: ReadonlyMap<string, unknown>): string {
  const reason = rules.strange && Object.hasOwn(rules.strange, key) ? rules.strange[key] : undefined;
  if (reason !== undefined) return `${key} does not belong to ${rules.name}; ${reason}`;
  return `${quote(key)} is not a key of ${rules.name}; expected ${[...known.keys()].join(", ")}, or a name that begins with x-`;
}

type Option<K extends string> = v.LooseObjectSchema<v.ObjectEntries & Record<K, Schema>, string> & {
  readonly rules: RecordRules;
};

export type RecordOfSchema<K extends string, O extends readonly Option<K>[]> = v.VariantSchema<K, O, string>;

/**
 * One of several objects, told apart by `key` alone. Where that has none of the known values, the keys that all of
 * them share (`common`) are still checked, so that no fault hides behind another.
 */
export function recordOf<const K extends string, const O extends readonly Option<K>[]>(
  key: K,
  options: O,
  common: v.ObjectEntries,
  words: { readonly name: string; readonly expected: string; readonly reserved?: readonly string[] },
): RecordOfSchema<K, O> {
  const byValue = new Map<unknown, Option<K>>();
  for (const option of options) {
    const choice = option.entries[key] as unknown as {
      readonly options?: readonly unknown[];
      readonly literal?: unknown;
    };
    for (const value of choice.options ?? [choice.literal]) byValue.set(value, option);
  }
  const run = (unknown: v.UnknownDataset, config: v.Config<Issue>): Dataset => {
    const dataset = begin(unknown);
    const input = dataset.value;
    if (!isRecord(input)) {
      addIssue(dataset, "record", `an object, ${words.name}`, input);
      return dataset;
    }
    const choice = own(input, key);
    const option = byValue.get(choice);
    if (option) return option["~run"](unknown, config) as unknown as Dataset;
    if (typeof choice === "string" && words.reserved?.includes(choice)) {
      addIssue(dataset, WHOLE_SENTENCE, `${key} ${choice} is not built yet; expected ${words.expected}`, choice, key);
    } else addIssue(dataset, "record", words.expected, choice, key);
    for (const [name, schema] of Object.entries(common)) {
      const value = own(input, name);
      if (value !== undefined) runAt(dataset, schema as Schema, value, name, config);
      else if (!isLeftOut(schema as Schema)) addIssue(dataset, "record", expectedBy(schema as Schema), undefined, name);
    }
    return dataset;
  };
  return { ...v.variant(key, options as never, words.expected), "~run": run } as unknown as RecordOfSchema<K, O>;
}

export type ListSchema<I extends Schema> = v.ArraySchema<I, string> & { readonly limit: number };

/** A list of at most `limit` items; past it the items are not looked at. */
export function list<const I extends Schema>(item: I, limit: number, name: string): ListSchema<I> {
  const run = (unknown: v.UnknownDataset, config: v.Config<Issue>): Dataset => {
    const dataset = begin(unknown);
    const input = dataset.value;
    if (!Array.isArray(input)) addIssue(dataset, "list", `a list of ${name}`, input);
    else if (input.length > limit) {
      const message = `${name} holds ${input.length.toLocaleString("en")} items; the limit is ${limit.toLocaleString("en")} ${name}`;
      addIssue(dataset, WHOLE_SENTENCE, message, undefined);
    } else for (let i = 0; i < input.length; i++) runAt(dataset, item, input[i], i, config);
    return dataset;
  };
  return { ...v.array(item, `a list of ${name}`), limit, "~run": run } as unknown as ListSchema<I>;
}

/** A list of a fixed number of items. */
export function row<const I extends Schema>(item: I, count: number, expected: string): v.ArraySchema<I, string> {
  const run = (unknown: v.UnknownDataset, config: v.Config<Issue>): Dataset => {
    const dataset = begin(unknown);
    const input = dataset.value;
    if (!Array.isArray(input) || input.length !== count) addIssue(dataset, "row", expected, input);
    else for (let i = 0; i < count; i++) runAt(dataset, item, input[i], i, config);
    return dataset;
  };
  return { ...v.array(item, expected), count, "~run": run } as unknown as v.ArraySchema<I, string>;
}
