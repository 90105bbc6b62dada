import { CautionPlate } from '../../shared/ui/caution-plate.tsx';
import { Sheet } from '../frame/sheet.tsx';
import { standingCautions } from '../step/cautions.tsx';
import { useSession } from '../walk/use-session.ts';

/** Every caution that stands now, in full. */
export function CautionsSheet({ onClose }: { readonly onClose: () => void }) {
  const { view } = useSession();
  return (
    <Sheet title="Cautions that stand now" onClose={onClose}>
      <div className="cautions">
        {standingCautions(view).map((caution, index) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: the list changes only with the step.
          <CautionPlate key={index} caution={caution} />
        ))}
      </div>
    </Sheet>
  );
}
