import type { Hands } from './meter-hands.ts';
import { useDrill } from './use-drill.ts';

type Jumper = NonNullable<Hands['jumper']>;

type JumperDockProps = { readonly jumper: Jumper; readonly onClose: () => void; readonly onChange: (jumper: Jumper) => void };

/** A jumper being put on: its two ends are pressed on the drawing. */
export function JumperDock({ jumper: { from, to }, onClose, onChange }: JumperDockProps) {
  const { send, writing } = useDrill();
  const ready = from !== undefined && to !== undefined;
  const place = async (): Promise<void> => {
    if (!ready) return;
    if (await send({ do: 'jumper', from, to })) onClose();
    else onChange({});
  };
  return (
    <>
      <p role="status">
        <strong>
          Jumper {from ?? '…'} to {to ?? '…'}
        </strong>
        <br />
        {from === undefined
          ? 'Press the first point on the drawing.'
          : to === undefined
            ? 'Press the second point.'
            : 'A press on the drawing begins again.'}
      </p>
      <div className="dock-row">
        <button type="button" className="button button-line" onClick={onClose}>
          No jumper
        </button>
        <button type="button" className="button button-main" disabled={!ready || writing} onClick={() => void place()}>
          Put it on
        </button>
      </div>
    </>
  );
}
