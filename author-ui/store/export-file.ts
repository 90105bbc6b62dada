import type { DeskFile } from './desk-file.ts';

/** Gives a file to the browser to save, under its own name. Pictures come out as pictures. */
export async function exportFile({ path, text }: Pick<DeskFile, 'path' | 'text'> & Partial<DeskFile>): Promise<void> {
  const bytes = text.startsWith('data:') ? await fetch(text).then((answer) => answer.blob()) : new Blob([text], { type: 'text/plain;charset=utf-8' });
  const address = URL.createObjectURL(bytes);
  const link = document.createElement('a');
  link.href = address;
  link.download = path.split('/').at(-1) ?? path;
  link.click();
  // The browser has taken it over by the next turn; the address would keep all of it in memory.
  setTimeout(() => URL.revokeObjectURL(address), 1000);
}

export async function exportFiles(files: readonly DeskFile[]): Promise<void> {
  for (const file of files) await exportFile(file);
}
