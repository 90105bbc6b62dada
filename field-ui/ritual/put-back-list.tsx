import { useSession } from '../walk/use-session.ts';
import { PutBackItems } from './put-back-items.tsx';

/** Everything temporary that is still in place. */
export function PutBackList() {
  const { view } = useSession();
  return <PutBackItems items={view.putBack} />;
}
