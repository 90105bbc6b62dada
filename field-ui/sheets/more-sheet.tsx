import { useCrew } from '../crew/use-crew.ts';
import { saveFile } from '../device/save-file.ts';
import { Sheet } from '../frame/sheet.tsx';
import { hrefOf } from '../frame/use-route.ts';
import { logFileName, logFileText } from '../log/log-file.ts';
import { ThemeChoice } from '../start/theme-choice.tsx';
import { useSession } from '../walk/use-session.ts';
import { useWalkControls } from '../walk/walk-controls.ts';

/** What is needed now and then on a call. */
export function MoreSheet({ onClose }: { readonly onClose: () => void }) {
  const { view, walk, lines, send, writing } = useSession();
  const { openSheet } = useWalkControls();
  const { status } = useCrew();
  const running = view.phase !== 'closed';
  const pause = async (): Promise<void> => {
    if (await send({ type: 'paused' })) onClose();
  };
  return (
    <Sheet title={view.tree.title} onClose={onClose}>
      <ul className="more-list">
        {running && (
          <>
            <MoreItem words="Note" about="written into the log and the report" onPress={() => openSheet('note')} />
            <MoreItem
              words="Photo"
              about={status === 'joined' ? 'kept with the call, and sent to the crew' : 'kept on this device with the call'}
              onPress={() => openSheet('photo')}
            />
            {view.phase !== 'opening' && !view.paused && view.facts.length > 0 && (
              <MoreItem words="This house" about="voltages, ratings, what the bands follow from" onPress={() => openSheet('facts')} />
            )}
            {!view.paused && <MoreItem words="Pause" about="the clock stops until you go on" onPress={() => void pause()} disabled={writing} />}
          </>
        )}
        <li>
          <a className="more-item" href={hrefOf({ screen: 'report', walk: walk.id })}>
            <span>Report</span>
            <span className="more-about">{running ? 'as it stands now' : 'to print, save or share'}</span>
          </a>
        </li>
        <MoreItem
          words="Save the log"
          about="every entry, as a file to keep or send"
          onPress={() => saveFile(logFileName(walk.id), 'application/jsonl', logFileText(lines))}
        />
      </ul>
      <div className="more-foot">
        <ThemeChoice />
        <p className="section-note">
          Call <code>{walk.id}</code>, edition <code>{walk.edition.hash.slice(0, 12)}</code>
        </p>
      </div>
    </Sheet>
  );
}

type MoreItemProps = { readonly words: string; readonly about: string; readonly onPress: () => void; readonly disabled?: boolean };

function MoreItem({ words, about, onPress, disabled = false }: MoreItemProps) {
  return (
    <li>
      <button type="button" className="more-item" onClick={onPress} disabled={disabled}>
        <span>{words}</span>
        <span className="more-about">{about}</span>
      </button>
    </li>
  );
}
