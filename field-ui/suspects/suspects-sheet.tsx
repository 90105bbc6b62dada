import { counted, plainWords } from '../../shared/ui/words/plain-words.ts';
import { Sheet } from '../frame/sheet.tsx';
import { TroubleNotice } from '../frame/trouble.tsx';
import { TroubleOfWalk } from '../walk/trouble-of-walk.tsx';
import { useSession } from '../walk/use-session.ts';
import { BackToOrder } from './back-to-order.tsx';
import { NextSection } from './next-section.tsx';
import { SuspectList } from './suspect-list.tsx';
import type { SuspectsReport } from './suspects-report.ts';
import { chanceWords, FAILED, faultNames } from './suspects-words.ts';
import { useSuspects } from './use-suspects.ts';
import './suspects.css';

/** What is still possible after everything found so far, how likely, and what to find out next. */
export function SuspectsSheet({ onClose }: { readonly onClose: () => void }) {
  const { report, advice, working, failed, again } = useSuspects();
  return (
    <Sheet title="Suspects" onClose={onClose}>
      <div className="suspects-sheet">
        {failed !== undefined && (
          <TroubleNotice {...FAILED} happened={`${FAILED.happened} (${failed})`}>
            <button type="button" className="button button-line" onClick={again}>
              Try again
            </button>
          </TroubleNotice>
        )}
        {failed === undefined && !report && (
          <p className="suggestion-waiting" role="status">
            Working it out…
          </p>
        )}
        {report && report.benches === 0 && (
          <p>
            This tree came without a bench, so what is still possible cannot be told from the readings. Go on in the tree’s order. The senior tech can
            give the tree a bench at the desk.
          </p>
        )}
        {report && report.benches > 0 && (
          <>
            <Contradictions report={report} />
            <Standing report={report} />
            <SuspectList report={report} />
            <BackToOrder onGone={onClose} />
            <TroubleOfWalk />
            <NextSection report={report} advice={advice} stale={working !== false} onGone={onClose} />
          </>
        )}
      </div>
    </Sheet>
  );
}

function Contradictions({ report }: { readonly report: SuspectsReport }) {
  return report.contradictions.map(({ message, fix }) => (
    <div key={message} className="contradiction" role="alert">
      <p className="contradiction-what">Something does not fit: {message}</p>
      <p>{fix}</p>
    </div>
  ));
}

/** On what the suspects stand, and what is not known of the house. */
function Standing({ report }: { readonly report: SuspectsReport }) {
  const { view } = useSession();
  const { found, possible, wirings, excluded } = report;
  return (
    <div className="suspects-standing">
      <p>
        {found === 0
          ? 'Nothing has been found out yet: so they stand by how often each is met.'
          : `${counted(possible.length, 'fault')} still possible after ${counted(found, 'thing')} found.`}
        {view.phase === 'verdict' && ' What is on the screen counts.'}
      </p>
      {wirings.length > 1 && (
        <p>
          Which wiring this is, is not known: {wirings.map(({ bench, probability }) => `${plainWords(bench)} ${chanceWords(probability)}`).join('; ')}
          .
        </p>
      )}
      {excluded.length > 0 && <p>Repaired already, and the complaint stayed: {faultNames(excluded, 5)}.</p>}
    </div>
  );
}
