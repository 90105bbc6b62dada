import { useEffect, useRef, useState } from 'react';
import { Sheet } from '../frame/sheet.tsx';
import { BackToOrder } from '../suspects/back-to-order.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';
import { PathList } from './path-list.tsx';

/** The strip: the path so far, and the way back to any step of it. */
export function PathSheet({ onClose }: { readonly onClose: () => void }) {
  const { view, walk, send, writing } = useSession();
  const [asked, setAsked] = useState<number>();
  const foot = useRef<HTMLDivElement>(null);
  useEffect(() => {
    foot.current?.scrollIntoView({ block: 'end' });
  }, []);
  const back = async (to: number): Promise<void> => {
    if (await send({ type: 'stepped-back', to })) onClose();
  };
  const under = (index: number) => {
    const entry = view.path[index];
    if (!entry || asked !== index) return null;
    const after = view.path.slice(index + 1).filter(({ on }) => on !== undefined).length;
    return (
      <div className="path-ask">
        <p>
          {after > 0 ? `This step and the ${after} after it are done again. ` : 'This step is done again. '}
          The log keeps what was entered. What you changed on the circuit stays as it is.
        </p>
        <button type="button" className="button button-main" disabled={writing} onClick={() => void back(index)}>
          Step back to here<span className="unseen">: {entry.title}</span>
        </button>
      </div>
    );
  };
  return (
    <Sheet title="Path" onClose={onClose}>
      {view.path.length === 0 ? (
        <p>No step has been walked yet. Each one comes to stand here with what you found, and a tap goes back to it.</p>
      ) : (
        <>
          {view.canStepBack && <p className="section-note">Tap a step to go back to it.</p>}
          <PathList path={view.path} steps={walk.edition.compiled.steps} onTap={view.canStepBack ? setAsked : undefined} under={under} />
        </>
      )}
      <BackToOrder onGone={onClose} />
      <TroubleOfWalk />
      <div ref={foot} />
    </Sheet>
  );
}
