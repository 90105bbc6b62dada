import { useEffect, useRef, useState } from 'react';
import { saveFile } from '../device/save-file.ts';
import { Mark } from '../frame/mark.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { hrefOf } from '../frame/use-route.ts';
import { logFileName, logFileText } from '../log/log-file.ts';
import type { SessionState } from '../walk/walk-session.ts';
import { reportHtml, reportText } from './report-file.ts';
import { ReportSheet } from './report-sheet.tsx';
import './report.css';

/** The report on its page, and the ways to hand it on. */
export function ReportScreen({ state }: { readonly state: SessionState }) {
  const sheet = useRef<HTMLElement>(null);
  const heading = useArrival('report');
  const [said, setSaid] = useState<string>();
  const { walk, view, lines } = state;
  const title = `Service report ${walk.snapshot.context.opened.site ?? view.tree.title}`;
  useEffect(() => {
    document.title = title;
  }, [title]);

  const html = async (): Promise<string> => (sheet.current ? reportHtml(sheet.current, title) : '');
  const save = async (): Promise<void> => saveFile(`${walk.id}.report.html`, 'text/html', await html());
  const share = async (): Promise<void> => {
    const file = new File([await html()], `${walk.id}.report.html`, { type: 'text/html' });
    const text = reportText(state);
    const data: ShareData = navigator.canShare?.({ files: [file] }) ? { title, text, files: [file] } : { title, text };
    try {
      await navigator.share(data);
    } catch (error) {
      const left = error instanceof Error && error.name === 'AbortError';
      if (!left) setSaid('The report could not be shared from here. Save it, and send the file.');
    }
  };

  return (
    <main className="page report-page">
      <div className="report-tools">
        <a className="button button-quiet" href={view.phase === 'closed' ? '#/' : hrefOf({ screen: 'walk', walk: walk.id })}>
          {view.phase === 'closed' ? 'All calls' : 'Back to the call'}
        </a>
        <button type="button" className="button button-line" onClick={() => print()}>
          Print or PDF
        </button>
        <button type="button" className="button button-line" onClick={() => void save()}>
          Save
        </button>
        {typeof navigator.share === 'function' && (
          <button type="button" className="button button-line" onClick={() => void share()}>
            Share
          </button>
        )}
        <button type="button" className="button button-line" onClick={() => saveFile(logFileName(walk.id), 'application/jsonl', logFileText(lines))}>
          Save the log
        </button>
        <p role="status">{said}</p>
      </div>
      <article className="report" ref={sheet}>
        <header className="report-head">
          <Mark />
          <h1 ref={heading} tabIndex={-1}>
            Service report
          </h1>
        </header>
        <ReportSheet state={state} />
      </article>
    </main>
  );
}
