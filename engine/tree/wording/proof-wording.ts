import type { ProblemData } from '../tree-problem.ts';
import { cut, type Words } from './words.ts';

type Of<C extends ProblemData['code']> = Extract<ProblemData, { code: C }>;

/** The circuit that a walk was proved on. */
const circuit = (bench: string, fault: string | undefined): string => (fault === undefined ? `On ${bench}, sound` : `On ${bench} with ${fault}`);

const all = (names: readonly string[]): string => (names.length < 2 ? names.join('') : `${names.slice(0, -1).join(', ')} and ${names.at(-1)}`);

export const PROOF_WORDING = {
  'fault-missed': ({ bench, fault, endsAt }: Of<'fault-missed'>): Words => ({
    message: `${circuit(bench, fault)}, the walk ends at “${cut(endsAt)}” and the fault is not found.`,
    fix: 'Follow the walk to the reading that led away, and change its bands or add a step.',
  }),
  'fault-misnamed': ({ bench, fault, named, endsAt }: Of<'fault-misnamed'>): Words => ({
    message: `${circuit(bench, fault)}, the walk ends at “${cut(endsAt)}”, which names ${all(named)}.`,
    fix: 'Follow the walk to the reading that led away. A good part would be replaced.',
  }),
  'healthy-condemned': ({ bench, named, endsAt }: Of<'healthy-condemned'>): Words => ({
    message: `${circuit(bench, undefined)}, the walk ends at “${cut(endsAt)}”${named.length === 0 ? '' : `, which names ${all(named)}`}.`,
    fix: 'A sound circuit should end at a finding with faults="none". Follow the walk to the reading that led away.',
  }),
  'too-close-to-call': ({ title, band, reads, edge, bench, fault }: Of<'too-close-to-call'>): Words => ({
    message: `${circuit(bench, fault)}, “${cut(title)}” may read ${reads}: too close to the edge of “${cut(band)}” at ${edge} to tell.`,
    fix: 'Move the edge away from what the circuit can read there.',
  }),
  'fooled-by-stray-voltage': ({ title, reads, truly, bench, fault }: Of<'fooled-by-stray-voltage'>): Words => ({
    message: `${circuit(bench, fault)}, “${cut(title)}” reads ${reads} where a load would find ${truly}: stray voltage.`,
    fix: 'Take the reading with input="low", or with the load connected.',
  }),
  'fooled-by-parallel-path': ({ title, reads, truly, through, bench, fault }: Of<'fooled-by-parallel-path'>): Words => ({
    message: `${circuit(bench, fault)}, “${cut(title)}” reads ${reads} through ${through}, while the part itself has ${truly}.`,
    fix: 'Lift one lead of the part before reading its ohms.',
  }),
  'wasted-step': ({ title, on }: Of<'wasted-step'>): Words => ({
    message: `“${cut(title)}” came to “${cut(on)}” on every bench with every fault, so it tells nothing apart.`,
    fix: 'Take it out, or let it tell faults apart.',
  }),
};
