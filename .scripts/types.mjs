// Type-checks every part of the repository, each under its own tsconfig.json.
import { readdirSync } from 'node:fs';
import { join, relative } from 'node:path';
import { bin, inRoot, root, run, say } from './repo.mjs';

const PARTS = ['engine', 'shared', 'field-ui', 'author-ui', 'tests'];

const configs = PARTS.flatMap((part) =>
  readdirSync(inRoot(part), { recursive: true })
    .filter((path) => path === 'tsconfig.json' || path.endsWith('/tsconfig.json'))
    .map((path) => join(part, path)),
).filter((path) => !path.includes('node_modules'));

let failed = 0;
for (const config of configs) {
  let output = '';
  if ((await run(bin('tsc'), ['-p', inRoot(config), '--pretty', 'false'], { onOutput: (text) => (output += text) })) === 0) continue;
  failed += 1;
  say(`${relative(root, inRoot(config))}:\n${output}`);
}
say(failed === 0 ? `Types agree in ${configs.join(', ')}.` : `Types do not agree in ${failed} of ${configs.length}.`);
process.exit(failed === 0 ? 0 : 1);
