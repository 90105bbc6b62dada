import { type Bench, parseBench } from '../../engine/bench/index.ts';

/**
 * A random string of contacts and a load on a 24 V supply, as control circuits are, with a terminal between every two parts. Its faults are drawn from
 * what those parts can become. Line volts vary by site where `spread` says so.
 */
export function randomString(roll: () => number, spread: boolean): Bench {
  const contacts = 2 + Math.floor(roll() * 3);
  const points = Array.from({ length: contacts + 1 }, (_, i) => `P${i}`);
  const parts: Record<string, unknown> = {
    supply: { kind: 'source', between: ['P0', 'C'], volts: spread ? 'supply-volts' : '24 V', ohms: '1 ohm' },
    bond: { kind: 'wire', between: ['C', 'ground'], gauge: '18 AWG', length: '1 ft' },
    load: { kind: 'load', between: [points[contacts], 'C'], ohms: `${40 + Math.floor(roll() * 60)} ohm` },
  };
  const faults: Record<string, unknown> = { 'load-open': { part: 'load', becomes: 'open', weight: 1 + Math.floor(roll() * 9) } };
  for (let i = 0; i < contacts; i += 1) {
    parts[`contact-${i}`] = { kind: 'contact', between: [points[i], points[i + 1]], 'closed-when': 'call is on' };
    faults[`open-${i}`] = { part: `contact-${i}`, becomes: 'stuck-open', weight: 1 + Math.floor(roll() * 9) };
    if (roll() < 0.6)
      faults[`burnt-${i}`] = { part: `contact-${i}`, becomes: `${20 + Math.floor(roll() * 100)} ohm`, weight: 1 + Math.floor(roll() * 9) };
  }
  const read = parseBench({
    title: 'A random string',
    terminals: [...points, 'C'],
    settings: { call: ['on', 'off'] },
    ...(spread && { facts: { 'supply-volts': { quantity: 'ac-voltage', ask: 'Supply', usual: '24 V', from: '21 V', to: '27 V' } } }),
    parts,
    signs: { runs: `volts(${points[contacts]}, C) above 18 V` },
    faults,
  });
  if (!read.ok) throw new Error(read.problems.map(({ message }) => message).join('\n'));
  return read.bench;
}
