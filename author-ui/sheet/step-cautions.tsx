import type { Tree } from '../../engine/tree/index.ts';
import { CautionChip } from '../../shared/ui/caution-plate.tsx';
import { proseText } from '../../shared/ui/prose-text.ts';
import { cautionsByStep } from './sheet-rows.ts';
import { SHEET_WORDS } from './sheet-words.ts';

/** The text of the cautions that single steps have, each with the numbers of its steps. */
export function StepCautions({ tree }: { readonly tree: Tree }) {
  const cautions = cautionsByStep(tree);
  if (cautions.length === 0) return null;
  return (
    <section className="sheet-ends" aria-labelledby="sheet-cautions-title">
      <h2 id="sheet-cautions-title">{SHEET_WORDS.byStep}</h2>
      <ul>
        {cautions.map(({ caution, numbers }) => (
          <li key={numbers.join() + caution.about}>
            <span className="sheet-number">{numbers.join(', ')}</span> <CautionChip signal={caution.signal} count={1} /> {proseText(caution.prose)}
          </li>
        ))}
      </ul>
    </section>
  );
}
