import { type HubClient, hubClient } from '../../shared/sync/hub-client.ts';
import { hasHub } from '../../shared/sync/hub-header.ts';
import { type HubProblem, isOutside } from '../../shared/sync/hub-problem.ts';
import type { Me } from '../../shared/sync/wire/crew-wire.ts';

/** How this desk stands to the crew's hub. */
export type HubStanding =
  /** Not known yet. */
  | { readonly state: 'looking' }
  /** The service that the desk came from runs no hub. */
  | { readonly state: 'no-hub' }
  /** There is a hub, and this desk is in no crew. `owned`: false until the crew has its first owner. `stopped`: it was in the crew once. */
  | { readonly state: 'not-joined'; readonly owned: boolean; readonly stopped?: 'device-stopped' | 'person-stopped' }
  /** Whether there is a hub cannot be told, or it does not answer. `me`: who this desk last was. */
  | { readonly state: 'away'; readonly problem: HubProblem; readonly me?: Me }
  | { readonly state: 'joined'; readonly me: Me };

/** How anything at the desk's own address is fetched. */
export type FetchPath = (path: string, init?: RequestInit) => Promise<Response>;

/** Milliseconds for the first answer of the service. */
const PATIENCE = 30_000;

/** Asks the service whether it has a hub, and the hub whether this desk is in the crew. A desk without a hub, or in no crew, is refused nothing. */
export async function lookForHub(fetchPath: FetchPath, client: HubClient, patience = PATIENCE): Promise<HubStanding> {
  // A service that takes the question and never answers is away, as the client's own questions have it.
  const limit = AbortSignal.timeout(patience);
  let service: Response;
  try {
    // Of all that the service answers this takes it the least work.
    service = await fetchPath('/trees/', { method: 'HEAD', cache: 'no-cache', signal: limit });
  } catch {
    return { state: 'away', problem: { code: limit.aborted ? 'too-slow' : 'no-signal' } };
  }
  if (!service.ok) return { state: 'away', problem: { code: 'answer-not-understood', status: service.status } };
  if (!hasHub(service)) return { state: 'no-hub' };
  const state = await client.state();
  if (!state.ok) return state.problem.code === 'no-hub' ? { state: 'no-hub' } : { state: 'away', problem: state.problem };
  const { owned, you } = state.value;
  if (you === 'stranger') return { state: 'not-joined', owned };
  if (you === 'device-stopped' || you === 'person-stopped') return { state: 'not-joined', owned, stopped: you };
  const me = await client.me();
  if (me.ok) return { state: 'joined', me: me.value };
  if (!isOutside(me.problem)) return { state: 'away', problem: me.problem };
  const { code } = me.problem;
  return { state: 'not-joined', owned, ...((code === 'device-stopped' || code === 'person-stopped') && { stopped: code }) };
}

/** The client of a desk: its cookie comes along by itself. */
export const deskClient = (fetchPath: FetchPath): HubClient => hubClient({ fetch: fetchPath });
