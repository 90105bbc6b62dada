import { createContext, useCallback, useContext, useMemo, useState } from 'react';
import { type EditionNotice, editionNotices } from '../../shared/sync/edition-notices.ts';
import { noticeWords } from '../../shared/sync/hub-words.ts';
import { useCrew } from '../crew/use-crew.ts';
import { Sheet } from '../frame/sheet.tsx';
import { useSession } from './use-session.ts';

const LINE_WORDS = { 'edition-withdrawn': 'This edition was taken back', 'newer-edition': 'Newer edition of this tree' } as const;

type ShownNotices = { readonly notices: readonly EditionNotice[]; readonly read: () => void };

/**
 * What the crew's list says about this walk's edition, as it was when the walk came to where it stands: nothing moves under a finger. Word of a
 * newer edition is gone with the next step once it has been read; word of one that was taken back stays.
 */
export function useWalkNotices(): ShownNotices {
  const { list } = useCrew();
  const { walk, view } = useSession();
  const { hash, compiled } = walk.edition;
  const [hasRead, setHasRead] = useState(false);
  const now = useMemo(
    () =>
      list && view.phase !== 'closed'
        ? editionNotices([{ walk: walk.id, edition: hash, tree: compiled.edition.root }], {
            entries: [...list.entries],
            withdrawn: [...list.withdrawn],
          })
        : [],
    [list, walk.id, hash, compiled, view.phase],
  );
  const place = `${walk.snapshot.context.at} ${view.phase} ${view.path.length}`;
  const [shown, setShown] = useState({ place, notices: now });
  const read = useCallback(() => setHasRead(true), []);
  if (shown.place === place) return { notices: shown.notices, read };
  const notices = hasRead ? now.filter(({ code }) => code === 'edition-withdrawn') : now;
  setShown({ place, notices });
  return { notices, read };
}

export const WalkNoticesContext = createContext<ShownNotices>({ notices: [], read: () => undefined });

/** One line at the top of a walk's screen; it opens what there is to read. The walk stays on its edition either way. */
export function WalkNotices() {
  const { notices, read } = useContext(WalkNoticesContext);
  const [open, setOpen] = useState(false);
  const [first] = notices;
  if (!first) return null;
  return (
    <>
      <button
        type="button"
        className="walk-notice"
        aria-haspopup="dialog"
        onClick={() => {
          setOpen(true);
          read();
        }}
      >
        {LINE_WORDS[first.code]}
        <span className="walk-notice-go">Read why</span>
      </button>
      {open && (
        <Sheet title="This call’s edition" onClose={() => setOpen(false)}>
          {notices.map((notice) => {
            const { happened, safe, todo } = noticeWords(notice);
            return (
              <div key={notice.code} className="walk-notice-words">
                <p>
                  <strong>{happened}</strong>
                </p>
                <p>{safe}</p>
                <p>{todo}</p>
              </div>
            );
          })}
        </Sheet>
      )}
    </>
  );
}
