import type { Bench } from '../../../engine/bench/index.ts';
import type { LadderLayout } from './ladder-layout.ts';
import { isLive, type LadderState, type MeterLeads } from './ladder-state.ts';
import { partName } from './part-words.ts';

/** What the drawing shows, in words, for who hears it instead. */
export function describeLadder(bench: Bench, layout: LadderLayout, state: LadderState, leads: MeterLeads | undefined): string {
  const named = (part: string): string => {
    const spec = bench.parts[part];
    return spec ? partName(part, spec) : part;
  };
  const inState = (...words: string[]): string[] =>
    shownParts(layout)
      .filter((part) => words.includes(state.parts?.[part] ?? ''))
      .map(named);
  const nodes = [...new Set(layout.points.filter(({ role }) => role === 'terminal').map(({ node }) => node))];
  const sentences = [
    leads && `Red lead on ${leads.red}, black on ${leads.black}.`,
    state.volts &&
      sentence(
        'Energised',
        nodes.filter((node) => isLive(state, node)),
        'Nothing here is energised.',
      ),
    state.energisedParts &&
      sentence(
        'With power',
        shownParts(layout)
          .filter((part) => state.energisedParts?.includes(part))
          .filter((part) => !isWire(bench, part))
          .map(named),
      ),
    sentence('Closed', inState('closed')),
    sentence('Open', inState('open', 'blown')),
    ...(state.jumpers ?? []).map(({ from, to, planned }) => `${planned ? 'Jumper to put on' : 'Jumper'} from ${from} to ${to}.`),
    sentence('Lifted', state.lifted ?? []),
    sentence(
      'Forced',
      Object.entries(state.forced ?? {}).map(([setting, now]) => `${setting.replaceAll('-', ' ')} ${now}`),
    ),
    ...(state.faults ?? []).map(({ part, word }) => `Fault: ${named(part)}, ${word}.`),
  ];
  const text = sentences.filter((one) => one !== undefined && one !== '').join(' ');
  return text === '' ? `${bench.title}: ladder drawing.` : text;
}

function sentence(what: string, names: readonly string[], none?: string): string | undefined {
  return names.length > 0 ? `${what}: ${names.join(', ')}.` : none;
}

const shownParts = ({ symbols }: LadderLayout): string[] => [...new Set(symbols.map(({ part }) => part))];
const isWire = (bench: Bench, part: string): boolean => bench.parts[part]?.kind === 'wire';

/** How the circuit hangs together, part by part from left to right, for who cannot see it. */
export function readRungs(bench: Bench, { symbols }: LadderLayout): string {
  return symbols
    .filter(({ piece }) => piece !== 'secondary')
    .map(({ part, ports }) => {
      const spec = bench.parts[part];
      return spec ? `${partName(part, spec)} from ${ports[0].node.replace(/#.*/, '')} to ${ports[1].node.replace(/#.*/, '')}` : part;
    })
    .join('; ');
}
