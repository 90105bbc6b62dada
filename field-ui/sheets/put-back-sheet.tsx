import { Sheet } from '../frame/sheet.tsx';
import { PutBackList } from '../ritual/put-back-list.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';
import '../ritual/ritual.css';

/** What is still jumpered, lifted, forced or off, at any time of the walk. */
export function PutBackSheet({ onClose }: { readonly onClose: () => void }) {
  const { view } = useSession();
  return (
    <Sheet title="Put back" onClose={onClose}>
      {view.putBack.length === 0 ? (
        <p>Nothing temporary is in place. What you jumper, lift, force or switch off comes to stand here until it is put back.</p>
      ) : (
        <>
          <p className="section-note">The steps ahead may still need these. The call cannot be closed before all are back.</p>
          <PutBackList />
        </>
      )}
      <TroubleOfWalk />
    </Sheet>
  );
}
