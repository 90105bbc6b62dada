import { expect, test } from 'vitest';
import { benchJsonSchema, PART_KIND_NAMES } from '../../engine/bench/index.ts';
import { type EntryField, FACT_FIELDS, FAULT_FIELDS, PART_FIELDS } from './entry-fields.ts';

type ObjectSchema = { readonly properties?: Readonly<Record<string, unknown>>; readonly required?: readonly string[] };

/** Every object of the published schema of bench files that a test finds good. */
function objectsIn(schema: unknown, isWanted: (object: ObjectSchema) => boolean): readonly ObjectSchema[] {
  if (Array.isArray(schema)) return schema.flatMap((item) => objectsIn(item, isWanted));
  if (typeof schema !== 'object' || schema === null) return [];
  const own = 'properties' in schema && isWanted(schema as ObjectSchema) ? [schema as ObjectSchema] : [];
  return [...own, ...Object.values(schema).flatMap((inner) => objectsIn(inner, isWanted))];
}

const SCHEMA: unknown = benchJsonSchema();
const names = (fields: readonly EntryField[]): string[] => fields.map(({ name }) => name).sort();

test.each(PART_KIND_NAMES)('the form of a %s has the fields that its file has, and asks for those that must be there', (kind) => {
  const found = objectsIn(SCHEMA, ({ properties }) => (properties?.kind as { const?: string } | undefined)?.const === kind);
  expect(found.length).toBeGreaterThan(0);
  const all = [...new Set(found.flatMap(({ properties }) => Object.keys(properties ?? {})))].filter((name) => name !== 'kind');
  expect(names(PART_FIELDS[kind])).toEqual(all.sort());
  const needed = PART_FIELDS[kind].filter((field) => field.needed).map(({ name }) => name);
  // Where a kind has several forms, only what all of them ask for is needed.
  const required = all.filter((name) => found.every((form) => form.required?.includes(name)));
  expect(needed.sort()).toEqual(required.sort());
});

test('so have those of a fault and a fact', () => {
  const [fault] = objectsIn(SCHEMA, ({ properties }) => properties?.becomes !== undefined);
  expect(names(FAULT_FIELDS)).toEqual(Object.keys(fault?.properties ?? {}).sort());
  const [fact] = objectsIn(SCHEMA, ({ properties }) => properties?.usual !== undefined);
  expect(names(FACT_FIELDS)).toEqual(Object.keys(fact?.properties ?? {}).sort());
});
