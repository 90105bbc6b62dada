import { type Caution, SIGNALS } from '../../engine/tree/index.ts';
import type { WalkView } from '../../engine/walk/index.ts';
import { CautionChip, CautionPlate, cautionName, FoldedCaution } from '../../shared/ui/caution-plate.tsx';
import { counted } from '../../shared/ui/words/plain-words.ts';
import { HoldButton } from '../frame/hold-button.tsx';
import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';

/** Every caution of where the walk stands, in full; those that must be read, each with its press that cannot be an accident. */
export function CautionsToRead() {
  const { view, send, writing } = useSession();
  const left = view.cautions.filter(({ mustRead, read }) => mustRead && !read).length;
  return (
    <div className="cautions">
      {view.cautions.map(({ caution, mustRead, read }, index) =>
        mustRead && read ? (
          // biome-ignore lint/suspicious/noArrayIndexKey: a caution is known by its place.
          <FoldedCaution key={index} caution={caution} />
        ) : (
          // biome-ignore lint/suspicious/noArrayIndexKey: a caution is known by its place.
          <CautionPlate key={index} caution={caution}>
            {mustRead && (
              <HoldButton disabled={writing} onHeld={() => void send({ type: 'caution-read', caution: index })}>
                I have read this<span className="unseen"> {cautionName(caution)}</span>
              </HoldButton>
            )}
          </CautionPlate>
        ),
      )}
      <p className="cautions-left" role="status">
        {left > 0 && `${counted(left, 'caution')} to read before this opens.`}
      </p>
    </div>
  );
}

// The opening's caution may stand on the step too, word for word; it is shown once.
const sameCaution = (a: Caution, b: Caution): boolean => JSON.stringify(a) === JSON.stringify(b);

/** Every caution that stands where the walk is: the step's own, then those of the opening. */
export function standingCautions(view: WalkView): readonly Caution[] {
  const own = view.cautions.map(({ caution }) => caution);
  return [...own, ...view.openingCautions.filter((caution) => !own.some((other) => sameCaution(caution, other)))];
}

/**
 * Cautions while a step is worked: those of the step that nobody had to acknowledge show in full, all others fold into one row of
 * signal words that opens them.
 */
export function StandingCautions({ folded }: { readonly folded: boolean }) {
  const { view } = useSession();
  const { openSheet } = useWalkControls();
  const full = folded ? [] : view.cautions.filter(({ mustRead }) => !mustRead).map(({ caution }) => caution);
  const others = standingCautions(view).filter((caution) => !full.includes(caution));
  const counts = SIGNALS.map((signal) => ({ signal, count: others.filter((caution) => caution.signal === signal).length }));
  if (full.length + others.length === 0) return null;
  return (
    <div className="cautions">
      {full.map((caution, index) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: the list changes only with the step.
        <CautionPlate key={index} caution={caution} />
      ))}
      {others.length > 0 && (
        <button
          type="button"
          className="caution-rail"
          aria-label={`Cautions: ${others.map(cautionName).join('; ')}`}
          onClick={() => openSheet('cautions')}
        >
          {counts.map(({ signal, count }) => count > 0 && <CautionChip key={signal} signal={signal} count={count} />)}
        </button>
      )}
    </div>
  );
}
