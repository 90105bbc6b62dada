import { spawn } from 'node:child_process';
import { realpathSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';

/** Top of the repository. */
export const root = dirname(dirname(fileURLToPath(import.meta.url)));

export const inRoot = (...parts) => join(root, ...parts);

/** A program that a package in node_modules brings. */
export const bin = (name) => inRoot('node_modules', '.bin', process.platform === 'win32' ? `${name}.cmd` : name);

/** Whether a module is the program that node was asked to run, and not imported by another. */
export const isRunAs = (url) => process.argv[1] !== undefined && realpathSync(process.argv[1]) === fileURLToPath(url);

/** Progress goes to standard error, so that standard output stays what a command was asked for. */
export const say = (text) => process.stderr.write(`${text}\n`);

/**
 * Runs a program in the repository and resolves to its exit code (never rejects).
 * `quiet` keeps what it prints and hands it to `onOutput` instead; otherwise all of it goes to standard error.
 */
export function run(command, args, { env = process.env, onOutput, cwd = root } = {}) {
  return new Promise((resolve) => {
    const child = spawn(command, args, { cwd, env, stdio: ['ignore', 'pipe', 'pipe'], shell: process.platform === 'win32' });
    const take = (chunk) => (onOutput ? onOutput(String(chunk)) : process.stderr.write(chunk));
    child.stdout.on('data', take);
    child.stderr.on('data', take);
    child.on('error', (error) => {
      say(`${command}: ${error.message}`);
      resolve(127);
    });
    child.on('close', (code) => resolve(code ?? 1));
  });
}
