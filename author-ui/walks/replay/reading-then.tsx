import { useId } from 'react';
import { BandScale } from '../../../shared/ui/band-scale.tsx';
import { treeAddress } from '../../desk-route.ts';
import { plainName } from '../walk-words.ts';
import type { Frame } from './replay-frame.ts';

/** The step that the walk stood at, with its bands as they were for that house then. */
export function ReadingThen({ frame }: { readonly frame: Frame }) {
  const title = useId();
  const { step, scale, path, phase, putBack } = frame;
  const answered = path.at(-1);
  return (
    <section className="walk-reading" aria-labelledby={title}>
      <h2 id={title}>{step ? step.title : 'Opening the call'}</h2>
      <p className="walk-hint">
        {PHASE_WORDS[phase] ?? plainName(phase)}
        {step && (
          <>
            {' · '}
            <a href={treeAddress(frame.tree, step.id)}>this step in the tree as it is now</a>
          </>
        )}
      </p>
      {scale && <BandScale bands={scale.bands} kind={scale.kind} unit={scale.unit} mark={scale.mark} />}
      {!scale && answered?.step === step?.id && answered?.on !== undefined && <p>Answered: {answered.on}</p>}
      {putBack.length > 0 && (
        <>
          <h3>To be put back</h3>
          <ul className="walk-put-back">
            {putBack.map((item) => (
              <li key={item.key}>{inPlaceWords(item)}</li>
            ))}
          </ul>
        </>
      )}
    </section>
  );
}

const PHASE_WORDS: Readonly<Partial<Record<Frame['phase'], string>>> = {
  opening: 'Cautions and facts before the first step',
  cautions: 'Cautions to be read',
  work: 'Waits for what is found',
  verdict: 'What it means is shown',
  finding: 'The finding is named',
  repair: 'The repair',
  'put-back': 'Putting back',
  recheck: 'Trying the complaint again',
  handoff: 'Handing over',
  closing: 'Ready to close',
  closed: 'Closed',
};

function inPlaceWords(item: Frame['putBack'][number]): string {
  if (item.kind === 'setting') return `${plainName(item.setting)}: ${plainName(item.now)}, found ${plainName(item.asFound)}`;
  return item.kind === 'jumper' ? `jumper ${item.from} to ${item.to}` : `lead ${item.lead} lifted`;
}
