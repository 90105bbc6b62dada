import { type Caution, writeProse } from '../../tree/index.ts';
import type { ReplayedLine } from '../replayed-log.ts';
import type { Measure, MeasureEvidence } from '../walk-review.ts';
import type { MeasureGround } from './measure-ground.ts';

/** Adults read English to themselves at 238 words a minute on average (Brysbaert 2019, from memory); nobody reads at three times that. */
const WORDS_A_MINUTE = 3 * 238;

/** Cautions that were acknowledged before their words could have been read. Those of one screen are read together, and one read before on this call is known. */
export function fastCautions({ log, of }: MeasureGround): Measure {
  const evidence: MeasureEvidence[] = [];
  const known = new Set<string>();
  let screen: { at: string | undefined; minutes: number; words: number; read: MeasureEvidence[] } | undefined;
  const close = (): void => {
    if (screen && screen.minutes * WORDS_A_MINUTE < screen.words) evidence.push(...screen.read);
    screen = undefined;
  };
  for (const replayed of log.lines) {
    const { line, worked, before } = replayed;
    if (line.event.type !== 'caution-read') {
      close();
      continue;
    }
    const { at } = before.snapshot.context;
    if (screen && screen.at !== at) close();
    screen ??= { at, minutes: 0, words: 0, read: [] };
    screen.minutes += worked;
    const key = `${at ?? ''} ${line.event.caution}`;
    const caution = cautionOf(of.edition.compiled, replayed, line.event.caution);
    if (!caution || known.has(key)) continue;
    known.add(key);
    const words = wordsIn(caution);
    screen.words += words;
    const step = at === undefined ? undefined : of.edition.compiled.steps.get(at);
    screen.read.push({
      seq: line.seq,
      ...(step && { tree: step.tree.name, step: step.step.id }),
      values: { words, seconds: screen.minutes * 60, signal: caution.signal },
    });
  }
  close();
  return { code: 'fast-caution', value: evidence.length, evidence };
}

function cautionOf({ steps, root }: MeasureGround['of']['edition']['compiled'], { before }: ReplayedLine, index: number): Caution | undefined {
  const { at } = before.snapshot.context;
  const step = at === undefined ? undefined : steps.get(at);
  return (step ? step.step.cautions : root.opening.cautions)[index];
}

const wordsIn = ({ prose }: Caution): number => writeProse(prose).split(/\s+/).filter(Boolean).length;
