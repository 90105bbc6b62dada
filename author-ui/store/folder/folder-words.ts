import type { FolderState } from './folder-sync.ts';

const files = (count: number): string => (count === 1 ? '1 file' : `${count} files`);

/** How the folder stands, in a few words. */
export function folderStateWords({
  state,
  waiting,
  conflicts,
}: {
  readonly state: FolderState;
  readonly waiting: number;
  readonly conflicts: number;
}): string {
  switch (state.at) {
    case 'reading':
      return 'reading…';
    case 'ask':
      return 'waits for your leave';
    case 'stopped':
      return `not reached${waiting > 0 ? `, ${files(waiting)} to write` : ''}`;
    case 'ready':
      if (conflicts > 0) return conflicts === 1 ? '1 file to decide' : `${conflicts} files to decide`;
      return waiting > 0 ? 'writing…' : 'all written';
  }
}

/** Why nothing is read from the folder or written to it, what is safe, and what to do. */
export function folderTroubleWords(state: Extract<FolderState, { at: 'ask' | 'stopped' }>, name: string, waiting: number): string {
  const safe =
    waiting === 0
      ? 'Everything that was changed here is in its files.'
      : `${files(waiting)} changed here ${waiting === 1 ? 'is' : 'are'} kept in this browser and not in the folder yet.`;
  if (state.at === 'ask')
    return `The browser wants your leave again before the desk may use the folder “${name}”. Until then work goes on from what this browser keeps. ${safe}`;
  switch (state.why) {
    case 'gone':
      return `The folder “${name}” is not where it was: it was moved, renamed or unplugged. ${safe} Put it back and try again, or open it where it is now.`;
    case 'full':
      return `There is no room left on the disk of the folder “${name}”. ${safe} Make room, then try again.`;
    case 'refused':
      return `The browser could not use the folder “${name}”: ${state.detail} ${safe}`;
  }
}

/** What may be said before the folder is closed while something is not written. */
export const unwrittenWords = (waiting: number, name: string): string =>
  `${files(waiting)} changed here ${waiting === 1 ? 'is' : 'are'} not in the folder “${name}” yet. Closed now, the changes stay in this browser and are written when the folder is opened again.`;
