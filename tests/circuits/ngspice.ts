import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';

export type SimulatedVolts = ReadonlyMap<string, { readonly re: number; readonly im: number }>;

/** One circuit for ngspice: its netlist lines, and an AC analysis at a frequency or an operating point. */
export type SimulatorJob = { readonly lines: readonly string[]; readonly hertz: number | 'dc' };

export const NGSPICE = '/usr/bin/ngspice';

/** Runs circuits through ngspice in one process; node volts of each, by node, in the order given. */
export function simulate(jobs: readonly SimulatorJob[]): readonly SimulatedVolts[] {
  const folder = mkdtempSync(join(tmpdir(), 'circuits-'));
  try {
    const script = ['* control', '.control', 'set numdgt=13', 'set noaskquit', 'set nomoremode'];
    jobs.forEach(({ lines, hertz }, i) => {
      writeFileSync(join(folder, `${i}.cir`), ['* circuit', ...lines, '.end', ''].join('\n'));
      script.push(`source ${join(folder, `${i}.cir`)}`);
      script.push(hertz === 'dc' ? 'op' : `ac lin 1 ${hertz} ${hertz}`);
      script.push(`echo circuit-${i}-begins`, 'print all', `echo circuit-${i}-ends`, 'destroy all', 'remcirc');
    });
    script.push('quit', '.endc', '.end', '');
    writeFileSync(join(folder, 'run.sp'), script.join('\n'));
    const output = execFileSync(NGSPICE, ['-b', join(folder, 'run.sp')], { encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'], maxBuffer: 1 << 28 });
    return jobs.map((_, i) => {
      const from = output.indexOf(`circuit-${i}-begins`);
      const to = output.indexOf(`circuit-${i}-ends`);
      if (from < 0 || to < 0) throw new Error(`ngspice gave nothing for circuit ${i}`);
      return readVolts(output.slice(from, to));
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

function readVolts(text: string): SimulatedVolts {
  const volts = new Map<string, { re: number; im: number }>();
  for (const match of text.matchAll(/^(?:v\()?(n\d+|\w+)\)?\s*=\s*([-+\d.e]+)(?:,\s*([-+\d.e]+))?/gim)) {
    volts.set((match[1] ?? '').toLowerCase(), { re: Number(match[2]), im: Number(match[3] ?? 0) });
  }
  return volts;
}
