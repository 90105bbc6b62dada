// The whole check: style, types, both builds, and every test. Ends with one line that counts them.
import { existsSync, mkdirSync, readFileSync, rmSync } from 'node:fs';
import { bin, inRoot, run, say } from './repo.mjs';

const RESULTS = inRoot('.build', 'test-results.json');

const STAGES = [
  { name: 'style', command: bin('biome'), args: ['check', '--error-on-warnings', '.'] },
  { name: 'types', command: process.execPath, args: ['.scripts/types.mjs'] },
  { name: 'build', command: process.execPath, args: ['.scripts/build.mjs'] },
];

async function stage({ name, command, args }) {
  const started = performance.now();
  let output = '';
  const ok = (await run(command, args, { onOutput: (text) => (output += text) })) === 0;
  say(`${ok ? 'ok    ' : 'FAILED'} ${name} (${((performance.now() - started) / 1000).toFixed(1)} s)`);
  if (!ok) say(output);
  return ok;
}

let failed = 0;
let passed = 0;
for (const one of STAGES) {
  if (await stage(one)) passed += 1;
  else failed += 1;
}

mkdirSync(inRoot('.build'), { recursive: true });
rmSync(RESULTS, { force: true });
const args = ['run', '--config', 'tests/vitest.config.ts', '--reporter=default', '--reporter=json', `--outputFile.json=${RESULTS}`];
const code = await run(bin('vitest'), args);
const results = existsSync(RESULTS) ? JSON.parse(readFileSync(RESULTS, 'utf8')) : undefined;
passed += results?.numPassedTests ?? 0;
failed += results?.numFailedTests ?? 0;
// A file that could not be loaded has no tests to count as failed.
if (code !== 0 && (results?.numFailedTests ?? 0) === 0) failed += Math.max(1, results?.numFailedTestSuites ?? 0);

process.stdout.write(`${passed} passed, ${failed} failed\n`);
process.exit(failed === 0 && (results?.numPassedTests ?? 0) > 0 ? 0 : 1);
