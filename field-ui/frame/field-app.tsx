import { TreeScreen } from '../call/tree-screen.tsx';
import { JoinScreen } from '../crew/join-screen.tsx';
import { DrillRoute } from '../drill/drill-route.tsx';
import { DrillsScreen } from '../drill/drills-screen.tsx';
import { ReportRoute } from '../report/report-route.tsx';
import { StartScreen } from '../start/start-screen.tsx';
import { WalkRoute } from '../walk/walk-route.tsx';
import { type Field, FieldContext } from './field-context.ts';
import { type Route, useRoute } from './use-route.ts';

export function FieldApp({ field }: { readonly field: Field }) {
  return <FieldContext value={field}>{screenOf(useRoute())}</FieldContext>;
}

function screenOf(route: Route) {
  switch (route.screen) {
    case 'start':
      return <StartScreen />;
    case 'join':
      return <JoinScreen code={route.code} />;
    case 'tree':
      return <TreeScreen key={route.edition} hash={route.edition} />;
    case 'walk':
      return <WalkRoute key={route.walk} walk={route.walk} />;
    case 'report':
      return <ReportRoute key={route.walk} walk={route.walk} />;
    case 'drills':
      return <DrillsScreen />;
    case 'drill':
      return <DrillRoute key={route.run} run={route.run} />;
  }
}
