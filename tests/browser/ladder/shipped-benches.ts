import { readdirSync, readFileSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { type Bench, readBench } from '../../../engine/bench/index.ts';

const FOLDER = fileURLToPath(new URL('../../../trees/benches/', import.meta.url));

/** Every bench that comes with Ohmward, by file name. */
export const SHIPPED: readonly (readonly [file: string, bench: Bench])[] = readdirSync(FOLDER)
  .filter((file) => file.endsWith('.bench.yaml'))
  .flatMap((file) => {
    const { bench } = readBench(readFileSync(FOLDER + file, 'utf8'), { file });
    return bench ? [[file, bench] as const] : [];
  });
