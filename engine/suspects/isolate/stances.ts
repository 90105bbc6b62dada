import type { PreparedBench } from '../../bench/index.ts';
import { type CircuitState, untouched } from '../../walk/index.ts';
import type { Stance } from './set-up-plan.ts';

/** Settings that cut a source off: those that a switch or a source goes by. */
export function isolatingSettings({ bench, index }: PreparedBench): readonly string[] {
  const texts = index.parts
    .filter(({ known }) => ['switch', 'source', 'dc-source'].includes(known.spec.kind))
    .flatMap(({ known }) => known.conditions.map(({ text }) => text));
  return Object.keys(bench.settings).filter((setting) => texts.some((text) => new RegExp(`(^|[^a-z0-9-])${setting} is `).test(text)));
}

export const asFoundCircuit = ({ bench }: PreparedBench): CircuitState =>
  untouched(Object.fromEntries(Object.entries(bench.settings).map(([setting, states]) => [setting, states[0] ?? ''])));

/** The circuit of a stance with nothing proved yet. */
export const circuitOf = (stance: Stance): CircuitState => ({ ...stance, meterProved: false, dead: [] });

/** How the circuit can stand for live readings and looks: as found, one setting changed, or one contact that guards nothing bridged. */
export function liveStances(prepared: PreparedBench): readonly Stance[] {
  const found = asFoundCircuit(prepared);
  const isolating = isolatingSettings(prepared);
  const turned = Object.entries(prepared.bench.settings)
    .filter(([setting]) => !isolating.includes(setting))
    .flatMap(([setting, states]) => states.slice(1).map((state): Stance => ({ ...found, settings: { ...found.settings, [setting]: state } })));
  const flame = flameNodes(prepared);
  const bridged = prepared.index.parts.flatMap(({ known }): readonly Stance[] => {
    if (known.spec.kind !== 'contact' || known.spec.safety !== undefined) return [];
    const [a = '', b = ''] = known.ends.map(({ node }) => node);
    const reachable = prepared.bench.terminals.includes(a) && prepared.bench.terminals.includes(b);
    return reachable && !flame.has(a) && !flame.has(b) ? [{ ...found, jumpers: [[a, b]] }] : [];
  });
  return [found, ...turned, ...bridged];
}

/**
 * The nodes of the parts that make a flame, and what wires join to them but common and ground. A jumper onto one of these works the part past all that its control waits for:
 * a gas valve would open with no igniter lit. Common practice: nobody feeds a gas valve or an igniter by hand.
 */
function flameNodes({ index }: PreparedBench): ReadonlySet<string> {
  const conditions = index.parts.filter(({ known }) => known.spec.kind === 'flame').flatMap(({ known }) => known.conditions.map(({ text }) => text));
  const isNamed = (name: string): boolean => MAKES_FLAME.test(name) || conditions.some((text) => new RegExp(`(^|[^a-z0-9-])${name} is `).test(text));
  const ends = index.parts.map(({ known }) => known.ends.map(({ node }) => node));
  const commons = new Set(['ground', ...index.parts.flatMap(({ known }, part) => (isReturn(known.spec.kind) ? (ends[part]?.slice(1) ?? []) : []))]);
  const nodes = new Set(index.parts.flatMap(({ name }, part) => (isNamed(name) ? (ends[part] ?? []) : [])));
  const wires = index.parts.flatMap(({ known }, part) => (known.spec.kind === 'wire' ? [ends[part] ?? []] : []));
  for (let grown = true; grown; ) {
    grown = false;
    for (const wire of wires) {
      if (wire.some((end) => commons.has(end)) || wire.every((end) => nodes.has(end)) || !wire.some((end) => nodes.has(end))) continue;
      for (const end of wire) nodes.add(end);
      grown = true;
    }
  }
  return new Set([...nodes].filter((node) => !commons.has(node)));
}

// What such parts are called, where a bench has no flame.
const MAKES_FLAME = /(^|-)(gas|igniter|pilot|burner)(-|$)/;

const isReturn = (kind: string): boolean => kind === 'source' || kind === 'dc-source' || kind === 'transformer';

/** How it can stand for ohms: one source cut off, or all, fewest first; with no lead lifted or one. */
export function deadStances(prepared: PreparedBench): readonly Stance[] {
  const found = asFoundCircuit(prepared);
  const isolating = isolatingSettings(prepared);
  const off = (settings: readonly string[]): Stance => ({
    ...found,
    settings: { ...found.settings, ...Object.fromEntries(settings.map((setting) => [setting, prepared.bench.settings[setting]?.[1] ?? ''])) },
  });
  const cuts = [...isolating.map((setting) => off([setting])), ...(isolating.length > 1 ? [off(isolating)] : [])];
  return cuts.flatMap((cut) => [cut, ...prepared.index.leads.map(({ name }): Stance => ({ ...cut, lifted: [name] }))]);
}
