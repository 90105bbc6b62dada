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
  clear(): void;
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
  return { start: (environment) => startHub(join(folder, 'hub.mjs'), environment), clear: () => rmSync(folder, { recursive: true, force: true }) };
}

function startHub(file: string, environment: Readonly<Record<string, string>>): Promise<HubProcess> {
  const child: ChildProcess = spawn(process.execPath, [file], {
    env: { PATH: process.env.PATH ?? '', ...environment },
    stdio: ['ignore', 'pipe', 'inherit'],
  });
  const gone = new Promise<void>((resolve) => child.once('exit', () => resolve()));
  const kill = async (): Promise<void> => {
    child.kill('SIGKILL');
    await gone;
  };
  return new Promise((resolve, reject) => {
    let out = '';
    child.stdout?.on('data', (chunk: Buffer) => {
      out += chunk.toString();
      const url = /http:\/\/\S+/.exec(out)?.[0];
      if (url !== undefined) resolve({ url, kill });
    });
    child.once('exit', (code) => reject(new Error(`the hub ended with ${code}: ${out}`)));
  });
}
