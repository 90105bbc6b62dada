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
  const bridged = prepared.index.parts.flatMap(({ known }): readonly Stance[] => {
    if (known.spec.kind !== 'contact' || known.spec.safety !== undefined) return [];
    const [a = '', b = ''] = known.ends.map(({ node }) => node);
    const reachable = prepared.bench.terminals.includes(a) && prepared.bench.terminals.includes(b);
    return reachable ? [{ ...found, jumpers: [[a, b]] }] : [];
  });
  return [found, ...turned, ...bridged];
}

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
