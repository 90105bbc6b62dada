import { useEffect } from 'react';
import { PageBack } from '../frame/page-back.tsx';
import { useArrival } from '../frame/use-arrival.ts';
import { DrillList } from './drill-list.tsx';
import { OpenDrillFile } from './open-drill-file.tsx';
import { PractiseForm } from './practise-form.tsx';
import '../call/call.css';
import '../start/start.css';
import './drill.css';

/** Drills: those that were given, those that are under way or done, and practising alone. */
export function DrillsScreen() {
  const heading = useArrival('drills');
  useEffect(() => {
    document.title = 'Drills · Ohmward';
  }, []);
  return (
    <main className="page start">
      <PageBack href="#/">All calls</PageBack>
      <h1 ref={heading} tabIndex={-1}>
        Drills
      </h1>
      <DrillList />
      <PractiseForm />
      <OpenDrillFile />
    </main>
  );
}
