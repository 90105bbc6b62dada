import { useState } from 'react';
import { putBackItems } from '../../engine/walk/index.ts';
import { drillAnswerWords, stillInPlaceWords } from '../../shared/ui/drill/drill-step-words.ts';
import { capital } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { DrillTrouble } from './drill-trouble.tsx';
import { useDrill } from './use-drill.ts';

const NOTHING = '';

/** Says what is wrong, and ends the drill. */
export function AnswerSheet({ onClose }: { readonly onClose: () => void }) {
  const { run, send, writing } = useDrill();
  const { bench, found } = run.ground;
  const [chosen, setChosen] = useState<string>();
  const items = putBackItems(run.circuit, found.settings);
  return (
    <Sheet title="What is wrong?" onClose={onClose}>
      <DrillTrouble />
      {items.length > 0 && (
        <p className="step-notice">
          <strong>Still in place:</strong> {items.map(stillInPlaceWords).join('; ')}. Put it back first; what is left counts in the result.
        </p>
      )}
      {/* biome-ignore lint/a11y/useSemanticElements: each is a press of its own, not a form that is sent. */}
      <div className="choices" role="group" aria-label="What is wrong">
        {[NOTHING, ...Object.keys(bench.faults)].map((fault) => (
          <button key={fault} type="button" className="choice" aria-pressed={chosen === fault} onClick={() => setChosen(fault)}>
            <span>{capital(drillAnswerWords(bench, fault === NOTHING ? undefined : fault))}</span>
            {chosen === fault && <span aria-hidden="true">✓</span>}
          </button>
        ))}
      </div>
      <div className="drill-answer-dock">
        <button type="button" className="button button-line" disabled={writing} onClick={() => void send({ do: 'give-up' })}>
          Give up
        </button>
        <button
          type="button"
          className="button button-main"
          disabled={chosen === undefined || writing}
          onClick={() => chosen !== undefined && void send({ do: 'name', faults: chosen === NOTHING ? [] : [chosen] })}
        >
          That is it
        </button>
      </div>
    </Sheet>
  );
}
