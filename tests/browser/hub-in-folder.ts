import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { type RunningServer, startServer } from '../../shared/crew/serve.ts';
import { ownerCode as firstCode } from '../../shared/crew/store/invitation-store.ts';
import { type HubStore, openStore } from '../../shared/crew/store/open-store.ts';
import { type HubClient, hubClient } from '../../shared/sync/hub-client.ts';

/** What must have worked, for the test to go on. */
export const good = <T>(result: { readonly ok: true; readonly value: T } | { readonly ok: false; readonly problem: unknown }): T => {
  if (!result.ok) throw new Error(JSON.stringify(result.problem));
  return result.value;
};

/** A hub's data on SQLite in a folder of its own, with the code that its terminal shows at the first start. */
export type HubFolder = { readonly store: HubStore; readonly ownerCode: string; throwAway(): Promise<void> };

export async function hubFolder(): Promise<HubFolder> {
  const folder = await mkdtemp(join(tmpdir(), 'ohmward-hub-'));
  const store = await openStore({ sqlite: join(folder, 'hub.sqlite') });
  const { code } = await firstCode(store, new Date().toISOString());
  return { store, ownerCode: code, throwAway: () => rm(folder, { recursive: true, force: true }) };
}

/** The owner's device in the office, in the crew by the terminal's code. */
export async function ownerOf(url: string, code: string, name = 'M. Birch', label = 'Office'): Promise<HubClient> {
  const ask = (path: string, init?: RequestInit) => fetch(`${url}${path}`, init);
  const { token } = good(await hubClient({ fetch: ask }).join({ code, name, kind: 'field', label }));
  return hubClient({ fetch: ask, token: () => token });
}

/** A hub that serves both apps and that nobody has joined. */
export type ServedHub = { readonly server: RunningServer; readonly ownerCode: string; stop(): Promise<void> };

export async function servedHub(): Promise<ServedHub> {
  const { store, ownerCode, throwAway } = await hubFolder();
  const server = await startServer({ port: 0, host: '127.0.0.1', hub: { store } });
  const stop = async (): Promise<void> => {
    await server.close();
    await throwAway();
  };
  return { server, ownerCode, stop };
}

/** A hub that serves both apps, with its owner. */
export type OwnedHub = ServedHub & { readonly owner: HubClient };

export async function ownedHub(): Promise<OwnedHub> {
  const hub = await servedHub();
  return { ...hub, owner: await ownerOf(hub.server.url, hub.ownerCode) };
}
