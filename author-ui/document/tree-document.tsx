import type { Tree } from '../../engine/tree/index.ts';
import { CautionPlate } from '../../shared/ui/caution-plate.tsx';
import type { Shelf, ShelfTree } from '../data/read-shelf.ts';
import { DocumentContext } from './document-context.ts';
import { DocumentProse } from './document-prose.tsx';
import { SiteFacts } from './site-facts.tsx';
import { stepNumbers, waysIn } from './step-links.ts';
import { StepSection } from './step-section.tsx';

type TreeDocumentProps = { readonly tree: Tree; readonly shelved: ShelfTree; readonly shelf: Shelf };

/** The whole tree to read from top to bottom, made from the same data that a walk is made from. */
export function TreeDocument({ tree, shelved, shelf }: TreeDocumentProps) {
  const { facts, problems } = shelved;
  const numbers = stepNumbers(tree);
  const into = waysIn(tree);
  return (
    <DocumentContext value={{ tree, facts, numbers, shelf: shelf.trees, figures: shelf.figures }}>
      <section className="opening" aria-label="Opening">
        <DocumentProse prose={tree.opening.prose} />
        {tree.opening.cautions.length > 0 && (
          <div className="cautions">
            <p className="cautions-note">On every step of this tree:</p>
            {tree.opening.cautions.map((caution, index) => (
              // biome-ignore lint/suspicious/noArrayIndexKey: a tree may have two cautions of one kind, and their order is theirs.
              <CautionPlate key={index} caution={caution} />
            ))}
          </div>
        )}
        <SiteFacts />
      </section>
      {tree.steps.map((step) => (
        <StepSection
          key={step.id}
          step={step}
          waysIn={into.get(step.id) ?? []}
          problems={problems.filter((problem) => problem.step === step.id).length}
        />
      ))}
    </DocumentContext>
  );
}
