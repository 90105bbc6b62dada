import { readFileSync } from 'node:fs';
import { validateXML } from 'xmllint-wasm';

const schema = (name: string): string => readFileSync(new URL(`../../outside/exchange/${name}`, import.meta.url), 'utf8');

/** What libxml2 finds wrong with a document by a schema of tests/outside/exchange; empty where it is valid. */
export async function xmlTroubles(text: string, schemaName: 'scxml.xsd' | 'xes.xsd'): Promise<readonly string[]> {
  const { valid, errors } = await validateXML({
    xml: [{ fileName: 'given.xml', contents: text }],
    schema: [{ fileName: schemaName, contents: schema(schemaName) }],
  });
  return valid ? [] : errors.map(({ message, loc }) => `${loc?.lineNumber ?? '?'}: ${message}`).concat('not valid');
}
