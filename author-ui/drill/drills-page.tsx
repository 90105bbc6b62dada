import { useCallback, useMemo, useState } from 'react';
import { type DrillRecord, readDrillRecord } from '../../engine/review/index.ts';
import { type JoinedHub, memberHub, useDeskHub } from '../crew/desk-hub.tsx';
import { HubAwayLine } from '../crew/hub-missing.tsx';
import { AskedTrouble } from '../crew/hub-trouble.tsx';
import { useAsked } from '../crew/use-asked.ts';
import { useTitle } from '../frame/use-title.ts';
import { type DrillsAsked, drillsAskedIn } from './drill-address.ts';
import { DrillForm } from './drill-form.tsx';
import { DrillResult } from './drill-result.tsx';
import { GivenDrills } from './given-drills.tsx';
import { OpenResultFile } from './open-result-file.tsx';
import { type DrillEdition, useDrillEditions } from './use-drill-editions.ts';
import '../crew/crew.css';
import './drill.css';

/** Drills: made and given here, done on the phone, compared here. `query`: what the address asks for. */
export function DrillsPage({ query = '' }: { readonly query?: string }) {
  useTitle('Drills');
  const hub = useDeskHub();
  // A hub that is away for a moment takes nothing off the screen that was typed there.
  const member = memberHub(hub);
  const editions = useDrillEditions();
  const asked = useMemo(() => drillsAskedIn(query), [query]);
  const [record, setRecord] = useState<DrillRecord>();
  if (record) return <DrillResult record={record} who={undefined} onClose={() => setRecord(undefined)} />;
  if (member && asked.drill !== undefined && asked.run !== undefined) return <GivenResult hub={member} drill={asked.drill} run={asked.run} />;
  if (!editions || hub.state === 'looking') return <p className="loading">Looking for the trees…</p>;
  const joined = member && member.me.person.role !== 'tech' ? member : undefined;
  return (
    <>
      {member && <HubAwayLine />}
      <article className="crew-page drills-page">
        <h1>Drills</h1>
        <p>
          A tech looks for a hidden fault on a tree’s circuit, with a meter that shows what it would show there. Afterwards the way taken stands
          beside the best one.
          {!joined && ' This desk is not in a crew as trainer, senior tech or owner, so a drill goes out as a file and comes back as one.'}
        </p>
        {joined ? (
          <WithHub hub={joined} editions={editions} asked={asked} />
        ) : (
          <DrillForm key={query} editions={editions} asked={asked} given={() => undefined} />
        )}
        <OpenResultFile onRecord={setRecord} />
      </article>
    </>
  );
}

function WithHub({ hub, editions, asked }: { readonly hub: JoinedHub; readonly editions: readonly DrillEdition[]; readonly asked: DrillsAsked }) {
  const drills = useAsked(useCallback(() => hub.client.drills(), [hub.client]));
  return (
    <>
      <DrillForm key={JSON.stringify(asked)} editions={editions} asked={asked} given={drills.again} />
      <GivenDrills hub={hub} drills={drills} editions={editions} />
    </>
  );
}

/** A result by its address. */
function GivenResult({ hub, drill, run }: { readonly hub: JoinedHub; readonly drill: string; readonly run: string }) {
  const runs = useAsked(useCallback(() => hub.client.drillRuns(drill), [hub.client, drill]));
  const found = useMemo(() => {
    for (const { run: stored, personName } of runs.value?.runs ?? []) {
      const record = readDrillRecord(stored);
      if (record.ok && record.value.id === run) return { record: record.value, personName };
    }
    return undefined;
  }, [runs.value, run]);
  if (found) return <DrillResult record={found.record} who={found.personName} />;
  return (
    <article className="crew-page">
      <h1>Drill</h1>
      <AskedTrouble asked={runs} what="the drill" />
      {runs.state === 'ready' && (
        <p>
          The hub has no such result. <a href="#/drills">All drills</a>
        </p>
      )}
    </article>
  );
}
