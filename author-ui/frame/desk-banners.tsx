import { noticeWords } from '../store/desk-notice.ts';
import { exportFile, exportFiles } from '../store/export-file.ts';
import { saveFailedWords } from '../store/save-state.ts';
import { useDeskSnapshot, useDeskStore } from '../store/use-desk-store.ts';

/** What must be known wherever one is on the desk: that something is not saved, and what other windows did. */
export function DeskBanners() {
  const store = useDeskStore();
  const { save, notices, files } = useDeskSnapshot();
  if (save.state !== 'failed' && notices.length === 0) return null;
  return (
    <div className="desk-banners">
      {save.state === 'failed' && (
        <div className="desk-banner desk-banner-failed" role="alert">
          <p>{saveFailedWords(save)}</p>
          <button type="button" className="button" onClick={() => exportFiles(save.paths.flatMap((path) => files.get(path) ?? []))}>
            Export now
          </button>
          <button type="button" className="button button-quiet" onClick={() => void store.retry()}>
            Try again
          </button>
        </div>
      )}
      {notices.map((notice) => {
        const copy = notice.code === 'kept-both' ? files.get(notice.copy) : undefined;
        return (
          <div key={`${notice.code} ${notice.path}`} className="desk-banner" role="status">
            <p>{noticeWords(notice)}</p>
            {copy && (
              <button type="button" className="button button-quiet" onClick={() => exportFile(copy)}>
                Export yours
              </button>
            )}
            <button type="button" className="button button-quiet" onClick={() => store.dismiss(notice)}>
              Understood
            </button>
          </div>
        );
      })}
    </div>
  );
}
