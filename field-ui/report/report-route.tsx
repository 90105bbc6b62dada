import { BrokenLog } from '../walk/broken-log.tsx';
import { useOpenWalk } from '../walk/use-open-walk.ts';
import { WalkNotOpen } from '../walk/walk-route.tsx';
import { ReportScreen } from './report-screen.tsx';

/** The report of a walk, open or closed; reading it holds nobody else up. */
export function ReportRoute({ walk }: { readonly walk: string }) {
  const { open, again } = useOpenWalk(walk, false);
  if (open.status !== 'open') return <WalkNotOpen walk={walk} open={open} again={again} />;
  const state = open.session.state();
  if (state.broken) return <BrokenLog state={state} problem={state.broken} />;
  return <ReportScreen state={state} />;
}
