import { type ChildProcess, spawn } from 'node:child_process';
import { mkdtempSync, rmSync, symlinkSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { build } from 'vite';

const fromHere = (path: string): string => fileURLToPath(new URL(path, import.meta.url));

/** A hub as a program of its own, so that it can be killed. */
export type HubProcess = {
  readonly url: string;
  /** As a power cut does it: nothing of the program's own runs any more. */
  kill(): Promise<void>;
};

export type HubProgram = {
  start(environment: Readonly<Record<string, string>>): Promise<HubProcess>;
  /** Ends every hub that still runs, as after a test that failed midway: it would keep the test run from ending. */
  clear(): Promise<void>;
};

/** Compiles the hub into one file, so that each of a hundred starts takes a moment only. */
export async function hubProgram(): Promise<HubProgram> {
  const folder = mkdtempSync(join(tmpdir(), 'ohmward-hub-program-'));
  symlinkSync(fromHere('../../../node_modules'), join(folder, 'node_modules'));
  await build({
    configFile: false,
    logLevel: 'error',
    build: {
      ssr: fromHere('./hub-alone.ts'),
      outDir: folder,
      emptyOutDir: false,
      target: 'node20',
      rolldownOptions: { output: { entryFileNames: 'hub.mjs' } },
    },
  });
  const running = new Set<() => Promise<void>>();
  return {
    start(environment) {
      const { kill, gone, started } = startHub(join(folder, 'hub.mjs'), environment);
      running.add(kill);
      void gone.then(() => running.delete(kill));
      return started;
    },
    async clear() {
      await Promise.all([...running].map((kill) => kill()));
      rmSync(folder, { recursive: true, force: true });
    },
  };
}

type Starting = { readonly kill: () => Promise<void>; readonly gone: Promise<void>; readonly started: Promise<HubProcess> };

function startHub(file: string, environment: Readonly<Record<string, string>>): Starting {
  const child: ChildProcess = spawn(process.execPath, [file], {
    env: { PATH: process.env.PATH ?? '', PARENT: String(process.pid), ...environment },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const kill = async (): Promise<void> => {
    child.kill('SIGKILL');
    await gone;
  };
  const started = new Promise<HubProcess>((resolve, reject) => {
    let out = '';
    child.stdout?.on('data', (chunk: Buffer) => {
      out += chunk.toString();
      const url = /http:\/\/\S+/.exec(out)?.[0];
      if (url !== undefined) resolve({ url, kill });
    });
    child.once('exit', (code) => reject(new Error(`the hub ended with ${code}: ${out}`)));
  });
  // One that is started ahead and killed before anyone waits for it is no failure of its own.
  started.catch(() => undefined);
  return { kill, gone, started };
}
