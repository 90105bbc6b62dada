import { readFileSync } from 'node:fs';
import { failure, type Result, success } from '../result.ts';

/** A file's text, or why there is none, in words. `what`: what the file would be, such as `log`. */
export function readTextFile(file: string, what: string): Result<string, string> {
  try {
    return success(readFileSync(file, 'utf8'));
  } catch (error) {
    const { code, message } = error as NodeJS.ErrnoException;
    if (code === 'ENOENT' || code === 'ENOTDIR') return failure(`There is no ${what} ${file}.`);
    if (code === 'EISDIR') return failure(`${file} is a folder. Name the ${what} in it.`);
    return failure(`${file} cannot be read (${message}).`);
  }
}
