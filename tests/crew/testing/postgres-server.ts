import { type ChildProcess, spawn, spawnSync } from 'node:child_process';
import { chownSync, existsSync, mkdtempSync, readdirSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import pg from 'pg';

/** Where Debian puts each version of PostgreSQL, and where others do. */
function programs(): string | undefined {
  const debian = '/usr/lib/postgresql';
  const versions = existsSync(debian) ? readdirSync(debian).sort((a, b) => Number(b) - Number(a)) : [];
  const folders = [...versions.map((version) => join(debian, version, 'bin')), '/usr/local/bin', '/usr/bin'];
  return folders.find((folder) => existsSync(join(folder, 'initdb')) && existsSync(join(folder, 'postgres')));
}

export const hasPostgres = programs() !== undefined;

export type PostgresServer = {
  /** The address of a new, empty database. */
  database(): Promise<string>;
  stop(): Promise<void>;
};

/** PostgreSQL refuses to run as root. */
function otherUser(): { readonly uid: number; readonly gid: number } | undefined {
  if (process.getuid?.() !== 0) return undefined;
  const idOf = (flag: string): number => Number(spawnSync('id', [flag, 'postgres']).stdout.toString());
  const [uid, gid] = [idOf('-u'), idOf('-g')];
  return uid > 0 ? { uid, gid } : { uid: 65534, gid: 65534 };
}

/** Starts a server of its own in a temporary folder, reached by a socket there. `durable`: with every commit on the disk, as in earnest. */
export async function startPostgres({ durable = false } = {}): Promise<PostgresServer> {
  const bin = programs();
  if (bin === undefined) throw new Error('There is no PostgreSQL on this machine.');
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-pg-'));
  const user = otherUser();
  if (user) chownSync(folder, user.uid, user.gid);
  const as = { cwd: folder, ...user, env: { PATH: process.env.PATH ?? '', LC_ALL: 'C', HOME: folder } };
  const data = join(folder, 'data');
  const made = spawnSync(join(bin, 'initdb'), ['-D', data, '-U', 'crew', '-A', 'trust', '-E', 'UTF8', ...(durable ? [] : ['--no-sync'])], as);
  if (made.status !== 0) throw new Error(`initdb: ${made.stderr}`);
  const settings = [
    'listen_addresses=',
    `unix_socket_directories=${folder}`,
    'max_connections=120',
    'shared_buffers=64MB',
    ...(durable ? [] : ['fsync=off']),
  ];
  const server = spawn(join(bin, 'postgres'), ['-D', data, ...settings.flatMap((one) => ['-c', one])], { ...as, stdio: 'ignore' });
  // Listened for from the start: one that has ended already tells it to nobody again.
  const gone = new Promise<void>((resolve) => {
    server.once('exit', () => resolve());
    server.once('error', () => resolve());
  });
  const address = (name: string): string => `postgres://crew@localhost/${name}?host=${encodeURIComponent(folder)}`;
  const stop = async (): Promise<void> => {
    server.kill('SIGINT');
    await gone;
    rmSync(folder, { recursive: true, force: true });
  };
  try {
    await answers(address('postgres'), server);
  } catch (error) {
    await stop();
    throw error;
  }
  let count = 0;
  return {
    async database() {
      count += 1;
      const name = `crew_${count}`;
      const client = new pg.Client(address('postgres'));
      await client.connect();
      await client.query(`create database ${name}`);
      await client.end();
      return address(name);
    },
    stop,
  };
}

/** Milliseconds that it may take to come up; a machine that has nothing else to do needs a second. */
const PATIENCE = 60_000;

async function answers(address: string, server: ChildProcess): Promise<void> {
  for (const until = performance.now() + PATIENCE; performance.now() < until; ) {
    if (server.exitCode !== null || server.signalCode !== null) throw new Error(`postgres ended with ${server.exitCode ?? server.signalCode}`);
    const client = new pg.Client(address);
    try {
      await client.connect();
      await client.end();
      return;
    } catch {
      await new Promise((resolve) => setTimeout(resolve, 50));
    }
  }
  throw new Error('PostgreSQL did not come up.');
}
