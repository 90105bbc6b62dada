import { resolve } from 'node:path';
import { fileURLToPath } from 'node:url';
import { type StorePlace, sqliteDriver, storeFile } from './open-store.ts';

/** Where the hub's data is when nobody says otherwise: in the checkout, out of git's sight. */
export const USUAL_DATA = fileURLToPath(new URL('../../../.ohmward', import.meta.url));

/** The place of the data: PostgreSQL where `DATABASE_URL` names it, a file in the data folder otherwise. */
export function storePlace(data: string, environment: Readonly<Record<string, string | undefined>>): StorePlace {
  const { DATABASE_URL: url, DATABASE_CONNECTIONS: most } = environment;
  if (url === undefined || url === '') return { sqlite: storeFile(resolve(data)) };
  if (!/^postgres(ql)?:\/\//.test(url)) throw new Error('DATABASE_URL has to begin with postgres:// or postgresql://.');
  const connections = Number(most ?? 10);
  return { postgres: url, connections: Number.isInteger(connections) && connections > 0 ? connections : 10 };
}

/** The place of the data of a service that was started with these options; undefined where it is to run without a hub. */
export function servedPlace(
  { data, alone }: { readonly data: string; readonly alone?: boolean },
  environment: Readonly<Record<string, string | undefined>>,
): StorePlace | undefined {
  const { DATABASE_URL: database = '' } = environment;
  return alone === true || (data === '' && database === '') ? undefined : storePlace(data, environment);
}

/** Why SQLite cannot be used on this machine, in the words of what loads it; undefined where it can. */
export function whyNoSqlite(load: typeof sqliteDriver = sqliteDriver): string | undefined {
  try {
    new (load())(':memory:').close();
    return undefined;
  } catch (error) {
    return error instanceof Error ? (error.message.split('\n')[0] ?? '') : String(error);
  }
}
