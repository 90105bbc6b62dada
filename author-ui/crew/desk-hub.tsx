import { createContext, type ReactNode, useCallback, useContext, useEffect, useMemo, useRef, useState } from 'react';
import type { HubClient } from '../../shared/sync/hub-client.ts';
import { type HubProblem, isOutside } from '../../shared/sync/hub-problem.ts';
import { deskClient, type HubStanding, lookForHub } from './look-for-hub.ts';
import { standingAfter } from './standing-after.ts';

/** How this desk stands to the crew's hub, the questions it can ask it, and a way to look again. */
export type DeskHub = HubStanding & {
  readonly client: HubClient;
  readonly again: () => Promise<void>;
  /** Takes note of a refusal: where it says that this desk is out of the crew, every page knows it from then on. */
  readonly noticeRefusal: (problem: HubProblem) => void;
  /** How many things this desk has had the hub do since it was opened: what lists them asks again when it grows. */
  readonly deeds: number;
  readonly noticeDeed: () => void;
};

/** The hub as a desk that is in the crew sees it. */
export type JoinedHub = Extract<DeskHub, { state: 'joined' }>;

/** The hub of a desk that is in the crew, or was when the hub last answered: what is on the screen stays there while it does not. */
export function memberHub(hub: DeskHub): JoinedHub | undefined {
  if (hub.state === 'joined') return hub;
  if (hub.state !== 'away' || !hub.me) return undefined;
  const { problem: _, ...rest } = hub;
  return { ...rest, state: 'joined', me: hub.me };
}

const DeskHubContext = createContext<DeskHub | undefined>(undefined);

/** Looks again this long after the last look, once the window is looked at again. */
const STALE = 60_000;

/** While the hub does not answer, it is looked for so often. */
const AWAY = 30_000;

const fetchHere = (path: string, init?: RequestInit): Promise<Response> => fetch(path, init);

/** Looks for the crew's hub, once for all pages. */
export function DeskHubRoot({ children }: { readonly children: ReactNode }) {
  const [standing, setStanding] = useState<HubStanding>({ state: 'looking' });
  const client = useMemo(() => deskClient(fetchHere), []);
  const look = useRef({ number: 0, at: 0 });

  const again = useCallback(async (): Promise<void> => {
    const number = look.current.number + 1;
    look.current = { number, at: Date.now() };
    const found = await lookForHub(fetchHere, client);
    if (look.current.number !== number) return;
    setStanding((before) => standingAfter(before, found));
  }, [client]);

  const noticeRefusal = useCallback(
    (problem: HubProblem): void => {
      // Said at once and without asking: the hub may be out of reach by now, and a page of someone who is out shows nothing more.
      if (problem.code === 'device-stopped' || problem.code === 'person-stopped') {
        look.current = { number: look.current.number + 1, at: Date.now() };
        setStanding({ state: 'not-joined', owned: true, stopped: problem.code });
      } else if (isOutside(problem)) void again();
    },
    [again],
  );

  useEffect(() => {
    void again();
    const stale = (): void => {
      if (document.visibilityState === 'visible' && Date.now() - look.current.at > STALE) void again();
    };
    const online = (): void => void again();
    window.addEventListener('focus', stale);
    window.addEventListener('online', online);
    return () => {
      window.removeEventListener('focus', stale);
      window.removeEventListener('online', online);
    };
  }, [again]);

  const isAway = standing.state === 'away';
  useEffect(() => {
    if (!isAway) return;
    const timer = setInterval(() => document.visibilityState === 'visible' && void again(), AWAY);
    return () => clearInterval(timer);
  }, [isAway, again]);

  const [deeds, setDeeds] = useState(0);
  const noticeDeed = useCallback(() => setDeeds((before) => before + 1), []);
  const hub = useMemo(
    (): DeskHub => ({ ...standing, client, again, noticeRefusal, deeds, noticeDeed }),
    [standing, client, again, noticeRefusal, deeds, noticeDeed],
  );
  return <DeskHubContext value={hub}>{children}</DeskHubContext>;
}

/** The crew's hub as this desk sees it. */
export function useDeskHub(): DeskHub {
  const hub = useContext(DeskHubContext);
  if (!hub) throw new Error('This part of the desk stands only inside a DeskHubRoot.');
  return hub;
}
