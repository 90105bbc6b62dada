import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { loadShippedEditions } from '../../engine/cli/shipped-editions.ts';
import { CHART_STATES, scxmlChart, wayEvents } from '../../engine/exchange/index.ts';
import { type CompiledStep, walkableEdition } from '../../engine/walk/index.ts';
import { ROOT } from '../structure/repo-files.ts';
import { ChartRunner } from './testing/chart-runner.ts';
import { RandomWalk } from './testing/random-walk.ts';
import { xmlTroubles } from './testing/xml-valid.ts';

const { editions } = await loadShippedEditions(join(ROOT, 'trees'));
const shipped = editions.map(({ edition }) => [edition.root, edition] as const);

/** A small generator of numbers in 0..1 that gives the same ones each time (mulberry32). */
function numbers(seed: number): () => number {
  let at = seed;
  return () => {
    at = (at + 0x6d2b79f5) | 0;
    let mixed = Math.imul(at ^ (at >>> 15), 1 | at);
    mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed;
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
}

/** Targets that are no state: libxml2 does not compare ids and references to them. */
function lostTargets(text: string): readonly string[] {
  const ids = new Set([...text.matchAll(/<(?:state|final) id="([^"]+)"/g)].map(([, id]) => id));
  return [...text.matchAll(/ (?:target|initial)="([^"]+)"/g)].flatMap(([, target]) => (target !== undefined && !ids.has(target) ? [target] : []));
}

const WALKS = 60;
const MOST_EVENTS = 120;
/** Of all steps, how many the walks have to come to. */
const REACHED = 0.7;
const names = (step: CompiledStep, on: string): string => wayEvents(step).get(on) ?? '';

describe('a state chart of each shipped tree', () => {
  test('there are ten', () => expect(shipped.length).toBeGreaterThanOrEqual(10));

  test.each(shipped)('%s: valid, and an interpreter stands where the walk stands after every event', async (_name, edition) => {
    const walkable = walkableEdition(edition);
    const text = scxmlChart(walkable);
    expect(await xmlTroubles(text, 'scxml.xsd')).toEqual([]);
    expect(lostTargets(text)).toEqual([]);
    const chart = await ChartRunner.of(text);
    const tried = new Map<string, number>();
    const seen = new Set<string>();
    for (let n = 0; n < WALKS; n += 1) {
      const runner = chart();
      const walk = new RandomWalk(walkable, runner, tried, numbers(n + 1));
      for (let events = 0; events < MOST_EVENTS && walk.expected !== CHART_STATES.closed; events += 1) {
        walk.step(names);
        expect(runner.state, `walk ${n}: ${walk.states.join(' > ')}`).toBe(walk.expected);
        seen.add(walk.expected);
      }
    }
    expect(seen).toContain(CHART_STATES.closed);
    expect([...seen].filter((state) => state.startsWith('step.')).length).toBeGreaterThan(walkable.compiled.steps.size * REACHED);
  });

  test('the checks find a chart with a wrong part, and one that leads nowhere', async () => {
    const [first] = shipped;
    if (!first) throw new Error('no tree');
    const text = scxmlChart(walkableEdition(first[1]));
    expect(await xmlTroubles(text.replace('<final ', '<end '), 'scxml.xsd')).not.toEqual([]);
    expect(lostTargets(text.replace(/(<transition event="went-on" target=")[^"]+/, '$1nowhere'))).toEqual(['nowhere']);
  });
}, 120_000);
