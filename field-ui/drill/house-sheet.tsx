import { Sheet } from '../frame/sheet.tsx';
import { HouseFacts } from './house-facts.tsx';
import { useDrill } from './use-drill.ts';

export function HouseSheet({ onClose }: { readonly onClose: () => void }) {
  const { ground } = useDrill().run;
  return (
    <Sheet title="This house" onClose={onClose}>
      <p>{ground.edition.compiled.root.complaint}</p>
      {ground.task.note !== undefined && <p className="step-notice">{ground.task.note}</p>}
      <HouseFacts />
    </Sheet>
  );
}
