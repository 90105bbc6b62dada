import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import {
  EVENT_COLUMNS,
  type ExportedWalk,
  eventsCsv,
  readLogFile,
  scxmlChart,
  WALK_COLUMNS,
  walksCsv,
  xapiStatements,
  xesLog,
} from '../../engine/exchange/index.ts';
import { walkableEdition } from '../../engine/walk/index.ts';
import { smallEdition } from '../../engine/walk/testing/small-edition.ts';
import { WalkDriver } from '../../engine/walk/testing/walk-driver.ts';
import { xmlTroubles } from './testing/xml-valid.ts';

const edition = walkableEdition(smallEdition());
const HOME = 'https://hub.example';

/** A walk to a reading, with a text of somebody's in every place that takes one. */
function walked(text: string, site = text): ExportedWalk {
  const driver = new WalkDriver(edition, 'walk-1').must({ type: 'opened', by: text.slice(0, 80), site: site.slice(0, 200) }).readCautions();
  driver
    .must({ type: 'noted', text }, { type: 'went-on' })
    .tell('wiring', 'own')
    .read('27.4')
    .must({ type: 'noted', text: text.slice(0, 2000) });
  driver.must({ type: 'could-not', why: text.slice(0, 500) });
  return { edition, lines: driver.lines };
}

const plain = walked('a tech');

// xAPI 1.0.3, part two, 2.4: statement properties, from memory.
const iri = z.string().regex(/^[a-z][a-z0-9+.-]*:\S+$/i);
const languageMap = z.record(z.string().regex(/^[a-z]{2,3}(-[A-Za-z0-9]+)*$/), z.string());
const extensions = z.record(iri, z.unknown());
const activity = z.strictObject({ objectType: z.literal('Activity'), id: iri, definition: z.strictObject({ name: languageMap, type: iri }) });
const statement = z.strictObject({
  id: z.uuid(),
  version: z.string().regex(/^1\.0\.\d+$/),
  actor: z.strictObject({
    objectType: z.literal('Agent'),
    name: z.string().optional(),
    account: z.strictObject({ homePage: iri, name: z.string().min(1) }),
  }),
  verb: z.strictObject({ id: iri, display: languageMap }),
  object: activity,
  result: z
    .strictObject({
      response: z.string(),
      success: z.boolean(),
      completion: z.boolean(),
      duration: z.iso.duration(),
      extensions,
    })
    .partial()
    .optional(),
  context: z.strictObject({
    registration: z.uuid(),
    platform: z.string(),
    language: z.string(),
    contextActivities: z.strictObject({ parent: z.array(activity) }),
    extensions,
  }),
  timestamp: z.iso.datetime({ offset: true }),
});

describe('xAPI', () => {
  test('statements are valid, each with its own id, the same each time', () => {
    const made = xapiStatements([plain], HOME);
    expect(z.array(statement).parse(made)).toHaveLength(made.length);
    expect(new Set(made.map(({ id }) => id)).size).toBe(made.length);
    expect(xapiStatements([plain], HOME)).toEqual(made);
    expect(made.map(({ verb }) => verb.id.split('/').at(-1))).toEqual(['initialized', 'commented', 'answered', 'answered', 'commented', 'answered']);
    expect(made[3]?.result?.extensions?.['urn:ohmward:xapi:value-si']).toBe(27.4);
    expect(new Set(made.map(({ context }) => context.registration)).size).toBe(1);
  });

  test('another walk has other ids', () => {
    const ids = new Set(xapiStatements([plain], HOME).map(({ id }) => id));
    expect(xapiStatements([walked('another')], HOME).some(({ id }) => ids.has(id))).toBe(false);
  });
});

describe('XES', () => {
  test('a log is valid; each step that is left was come to before', async () => {
    const text = xesLog([plain, walked('another')]);
    expect(await xmlTroubles(text, 'xes.xsd')).toEqual([]);
    expect(text.match(/<trace>/g)).toHaveLength(2);
    const starts = text.match(/value="start"/g)?.length ?? 0;
    expect(starts).toBeGreaterThan(4);
  });

  test('the check finds an event outside a trace', async () => {
    expect(await xmlTroubles(xesLog([plain]).replace('<trace>', '<event/><trace>'), 'xes.xsd')).not.toEqual([]);
  });
});

const rowsOf = (text: string): Record<string, string>[] => parse(text, { columns: true, record_delimiter: '\r\n' });

describe('CSV', () => {
  test('a row an event, read back by another parser', () => {
    const rows = rowsOf(eventsCsv([plain]));
    expect(rows).toHaveLength(plain.lines.length);
    expect(Object.keys(rows[0] ?? {})).toEqual([...EVENT_COLUMNS]);
    const reading = rows.find(({ event }) => event === 'read');
    expect(reading).toMatchObject({ step: 'power', typed: '27.4', 'value (SI)': '27.4', 'unit typed': 'V', trusted: 'true' });
  });

  test('a row a walk', () => {
    const rows = rowsOf(walksCsv([plain, walked('another')]));
    expect(Object.keys(rows[0] ?? {})).toEqual([...WALK_COLUMNS]);
    expect(rows.map(({ by }) => by)).toEqual(['a tech', 'another']);
  });

  test.each(['=1+1', '+1', '-1', '@SUM(A1)', '\t=1', ' =1', '\r=1', '＝1+1'])('%j is no formula', (text) => {
    expect(rowsOf(walksCsv([walked(text)]))[0]?.by).toMatch(/^'/);
  });

  test('lines after a break are kept, and said not to be trusted', () => {
    const lines = plain.lines.filter((_, index) => index !== 3);
    const rows = rowsOf(eventsCsv([{ edition, lines }]));
    expect(rows).toHaveLength(lines.length);
    expect(rows.filter(({ trusted }) => trusted === 'false')).toHaveLength(lines.length - 3);
  });
});

describe('a log read from a file', () => {
  const text = plain.lines.map((line) => `${JSON.stringify(line)}\r\n`).join('');

  test('what was written comes back', () => {
    expect(readLogFile(`\uFEFF${text}`)).toMatchObject({ lines: plain.lines, problems: [] });
  });

  test('each bad line is named, and nothing is lost', () => {
    const read = readLogFile(`half a li\n\n${text}{"walk":1}\n`);
    expect(read.lines).toEqual(plain.lines);
    expect(read.problems).toMatchObject([
      { line: 1, code: 'not-json', text: 'half a li' },
      { line: plain.lines.length + 3, code: 'not-a-line', text: '{"walk":1}' },
    ]);
    expect(read.raw).toHaveLength(plain.lines.length + 2);
  });

  test('half a character is named, and stops nothing', () => {
    const half = text.replace('a tech', 'a \\ud800');
    expect(readLogFile(half).problems).toMatchObject([{ line: 1, code: 'not-a-line' }]);
    expect(() => eventsCsv([{ edition, lines: readLogFile(half).lines }])).not.toThrow();
  });

  test('never throws', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (any) => {
        expect(readLogFile(any).lines).toEqual([]);
      }),
      { seed: 7, numRuns: 200 },
    );
  });
});

const HOSTILE = [
  '\u0000\u0001\u001f',
  ']]>',
  '"\'<&>',
  'a\r\nb\n',
  '\u202eabc\u202c',
  '<script>alert(1)</script>',
  '\ufffe\uffff',
  '&#0;',
  '=cmd()',
  '</state>',
];
const hostile = fc.oneof(fc.constantFrom(...HOSTILE), fc.string({ unit: 'binary', maxLength: 60 }));

describe('texts that want to break out', () => {
  test('stay text in logs of every format', async () => {
    await fc.assert(
      fc.asyncProperty(hostile, async (text) => {
        const walk = walked(text);
        expect(await xmlTroubles(xesLog([walk]), 'xes.xsd')).toEqual([]);
        expect(z.array(statement).safeParse(JSON.parse(JSON.stringify(xapiStatements([walk], HOME)))).success).toBe(true);
        expect(rowsOf(eventsCsv([walk]))).toHaveLength(walk.lines.length);
      }),
      { seed: 11, numRuns: 25, examples: HOSTILE.map((text) => [text] as [string]) },
    );
  });

  test('stay text in a chart', async () => {
    await fc.assert(
      fc.asyncProperty(hostile, async (text) => {
        const small = smallEdition();
        const trees = Object.fromEntries(
          Object.entries(small.trees).map(([name, tree]) => [
            name,
            {
              ...tree,
              title: `t${text}`,
              complaint: `c${text}`,
              steps: tree.steps.map((step) => ({
                ...step,
                title: `s${text}`,
                cautions: step.cautions.map((caution) => ({ ...caution, prose: [{ type: 'code' as const, value: text }] })),
              })),
            },
          ]),
        );
        expect(await xmlTroubles(scxmlChart(walkableEdition({ ...small, trees })), 'scxml.xsd')).toEqual([]);
      }),
      { seed: 13, numRuns: 15, examples: HOSTILE.map((text) => [text] as [string]) },
    );
  });
}, 120_000);
