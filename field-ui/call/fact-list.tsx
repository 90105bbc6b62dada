import { useState } from 'react';
import { isChoice } from '../../engine/tree/index.ts';
import type { FactState } from '../../engine/walk/index.ts';
import { useSession } from '../walk/use-session.ts';
import { FactSheet } from './fact-sheet.tsx';
import { factText } from './fact-text.ts';

/** What is so on this site, each fact with where it is known from, and a press to change it. */
export function FactList() {
  const { view } = useSession();
  const [changing, setChanging] = useState<string>();
  const fact = view.facts.find(({ name }) => name === changing);
  return (
    <>
      <ul className="fact-list">
        {view.facts.map((one) => (
          <li key={one.name}>
            <button type="button" className={isChoice(one.spec) ? 'fact-line fact-line-choice' : 'fact-line'} onClick={() => setChanging(one.name)}>
              <span className="fact-ask">{one.spec.ask}</span>
              <span className="fact-value">{factText(one)}</span>
              <span className="fact-source">{sourceWords(one)}</span>
              <span className="fact-change">Change</span>
            </button>
          </li>
        ))}
      </ul>
      {fact && <FactSheet fact={fact} onClose={() => setChanging(undefined)} />}
    </>
  );
}

function sourceWords({ source, outside }: FactState): string {
  if (outside) return 'outside what this tree was made for';
  return source === 'usual' ? 'usual' : source === 'read' ? 'read here' : 'told';
}
