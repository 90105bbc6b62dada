import { expect, test } from 'vitest';
import { fetchSources } from './fetch-sources.ts';

const LIST = {
  trees: [{ name: 'a', path: 'a.tree.mdx' }],
  benches: [{ name: 'b', path: 'benches/b.bench.yaml' }],
  figures: [{ name: 'c.png', path: 'figures/c.png' }],
};
const GOOD: Readonly<Record<string, string>> = {
  '/trees/': JSON.stringify(LIST),
  '/editions/index.json': '[]',
  '/trees/a.tree.mdx': 'tree',
  '/trees/benches/b.bench.yaml': 'bench',
  '/trees/figures/c.png': 'picture',
};

/** A service that answers with these texts, 404 for the rest; `undefined` for one that does not answer. */
const service = (answers: Readonly<Record<string, string | undefined>>) => async (path: string) => {
  const text = answers[path];
  if (path in answers && text === undefined) throw new TypeError('no network');
  return new Response(text ?? 'not found', { status: text === undefined ? 404 : 200 });
};
const fetched = (answers: Readonly<Record<string, string | undefined>>) => fetchSources(service(answers), (picture) => `blob:${picture.size}`);

test('everything that is listed is fetched', async () => {
  expect(await fetched(GOOD)).toEqual({
    ok: true,
    value: { trees: { a: 'tree' }, benches: { b: 'bench' }, figures: { 'figures/c.png': 'blob:7' }, editions: [] },
  });
});

test('a picture that cannot be had is left out, and the rest stands', async () => {
  const sources = await fetched({ ...GOOD, '/trees/figures/c.png': undefined });
  expect(sources.ok && sources.value.figures).toEqual({});
});

test.each([
  ['no-answer', { ...GOOD, '/trees/': undefined }, { path: '/trees/' }],
  ['no-answer', { ...GOOD, '/trees/a.tree.mdx': undefined }, { path: '/trees/a.tree.mdx' }],
  ['refused', { '/trees/': JSON.stringify(LIST), '/editions/index.json': '[]' }, { path: '/trees/a.tree.mdx', status: 404 }],
  ['not-understood', { ...GOOD, '/trees/': '<!doctype html>' }, { path: '/trees/' }],
  ['not-understood', { ...GOOD, '/editions/index.json': '{"a":1}' }, { path: '/editions/index.json' }],
])('%s is told with its address', async (code, answers, rest) => expect(await fetched(answers)).toEqual({ ok: false, problem: { code, ...rest } }));
