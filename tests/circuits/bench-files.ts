import { readdirSync, readFileSync } from 'node:fs';
import { basename, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type Bench, readBench } from '../../engine/bench/index.ts';

const SHIPPED = fileURLToPath(new URL('../../trees/benches/', import.meta.url));
const SAMPLES = fileURLToPath(new URL('./benches/', import.meta.url));

export type BenchFile = { readonly name: string; readonly file: string; readonly source: string };

const filesIn = (folder: string): readonly BenchFile[] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.bench.yaml'))
    .sort()
    .map((name) => ({ name: basename(name, '.bench.yaml'), file: join(folder, name), source: readFileSync(join(folder, name), 'utf8') }));

/** The benches that ship with the trees, and the samples of this folder, which have every kind of part and fault between them. */
export const shippedBenches = (): readonly BenchFile[] => filesIn(SHIPPED);
export const sampleBenches = (): readonly BenchFile[] => filesIn(SAMPLES);

/** A bench that has no errors; what is wrong is thrown, as a test must not go on without it. */
export function soundBench({ source, file }: BenchFile): Bench {
  const { bench, problems } = readBench(source, { file });
  const errors = problems.filter(({ severity }) => severity === 'error');
  if (!bench || errors.length > 0)
    throw new Error(errors.map(({ line, column, code, message }) => `${file}:${line}:${column} ${code} ${message}`).join('\n'));
  return bench;
}
