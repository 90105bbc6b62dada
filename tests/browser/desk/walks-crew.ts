import { readFileSync } from 'node:fs';
import {
  beginWalk,
  type Edition,
  takeEvent,
  viewOf,
  type Walk,
  type WalkableEdition,
  type WalkEvent,
  type WalkLine,
  walkableEdition,
} from '../../../engine/walk/index.ts';
import type { HubClient } from '../../../shared/sync/hub-client.ts';
import { good } from '../hub-in-folder.ts';

const SCRIPT = readFileSync(new URL('../../walks/coil-open.jsonl', import.meta.url), 'utf8')
  .split('\n')
  .filter((line) => line !== '')
  .map((line) => JSON.parse(line) as WalkEvent);

/** The flagship edition as the service gives it. */
export async function flagshipEdition(
  url: string,
): Promise<{ readonly hash: string; readonly edition: Edition; readonly walkable: WalkableEdition }> {
  const list = (await (await fetch(`${url}/editions/index.json`)).json()) as readonly { readonly hash: string; readonly name: string }[];
  const entry = list.find(({ name }) => name === 'no-water-at-the-pad');
  if (!entry) throw new Error('no flagship');
  const edition = (await (await fetch(`${url}/editions/${entry.hash}.json`)).json()) as Edition;
  return { hash: entry.hash, edition, walkable: walkableEdition(edition) };
}

/** A call that ends at the open coil, `minutes` between its lines. Cautions are read and verdicts gone on from as they come. */
export function coilOpenCall(
  edition: WalkableEdition,
  id: string,
  { by = 'Tam Tech', site = '12 Elm', day = 5, seconds = 30 } = {},
): readonly WalkLine[] {
  let walk: Walk = beginWalk(edition, id);
  const lines: WalkLine[] = [];
  const take = (event: WalkEvent): void => {
    const at = lines.length * seconds * 1000;
    const taken = takeEvent(walk, event, { time: new Date(Date.UTC(2026, 9, day, 9) + at).toISOString(), mono: at });
    if (!taken.ok) throw new Error(`${JSON.stringify(event)} was refused: ${JSON.stringify(taken.problem)}`);
    walk = taken.value.walk;
    lines.push(taken.value.line);
  };
  const settle = (): void => {
    for (;;) {
      const view = viewOf(walk);
      const unread = view.cautions.findIndex(({ mustRead, read }) => mustRead && !read);
      if (unread >= 0) take({ type: 'caution-read', caution: unread });
      else if (view.phase === 'verdict' || view.phase === 'opening') take({ type: 'went-on' });
      else if (view.unmet.length > 0 && view.phase === 'work' && view.step?.kind !== 'act') {
        const [hold] = view.unmet;
        if (!hold) return;
        take({ type: 'did', does: `turn ${hold.setting} ${hold.state}` });
      } else return;
    }
  };
  take({ type: 'opened', by, site });
  settle();
  for (const event of SCRIPT) {
    take(event);
    if (event.type !== 'closed') settle();
  }
  return lines;
}

export async function upload(client: HubClient, lines: readonly WalkLine[]): Promise<void> {
  for (let at = 0; at < lines.length; at += 400) good(await client.upload({ lines: lines.slice(at, at + 400), tails: [] }));
}
