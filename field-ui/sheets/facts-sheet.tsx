import { FactList } from '../call/fact-list.tsx';
import '../call/call.css';
import { Sheet } from '../frame/sheet.tsx';

export function FactsSheet({ onClose }: { readonly onClose: () => void }) {
  return (
    <Sheet title="This house" onClose={onClose}>
      <p className="section-note">The numbers of every band follow from these.</p>
      <FactList />
    </Sheet>
  );
}
