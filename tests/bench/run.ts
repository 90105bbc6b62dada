import { readdirSync } from 'node:fs';
import type { Bench, BenchRow } from './bench-row.ts';

const HERE = new URL('./', import.meta.url);

const shown = (ms: number): string => (ms >= 1 ? `${ms.toFixed(2)} ms` : `${(ms * 1000).toFixed(1)} µs`);

const cells = ({ name, ours, other, ratio, note }: BenchRow): readonly string[] => [name, shown(ours), shown(other), `${ratio.toFixed(2)}×`, note];

/** Rows under a head, numbers to the right. */
export function alignedTable(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const all = [head, ...rows];
  const widths = head.map((_, column) => Math.max(...all.map((row) => row[column]?.length ?? 0)));
  const line = (row: readonly string[]): string =>
    row
      .map((cell, column) => (column > 0 && column < head.length - 1 ? cell.padStart(widths[column] ?? 0) : cell.padEnd(widths[column] ?? 0)))
      .join('  ');
  return [line(head), widths.map((width) => '-'.repeat(width)).join('  '), ...rows.map(line)].map((text) => text.trimEnd()).join('\n');
}

const wanted = process.argv.slice(2);
const files = readdirSync(HERE).filter((file) => file.endsWith('-bench.ts') && (wanted.length === 0 || wanted.some((name) => file.startsWith(name))));
const rows: BenchRow[] = [];
for (const file of files.sort()) {
  console.error(`${file} …`);
  const { default: bench } = (await import(new URL(file, HERE).href)) as { default: Bench };
  rows.push(...(await bench()));
}
console.log(alignedTable(['work', 'ours', 'other', 'ratio', 'compared with'], rows.map(cells)));
