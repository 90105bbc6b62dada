import type { BackupProblem } from './backup.ts';

export function backupProblemWords(problem: BackupProblem, file: string): string {
  switch (problem.code) {
    case 'file-exists':
      return `${file} is there already, and no backup is written over. Give another name.`;
    case 'no-file':
      return `There is no file ${file}. Nothing was changed.`;
    case 'not-empty':
      return 'This hub holds something already, and nothing of it was changed. Back it up first; then --replace puts the backup in its place.';
    case 'not-a-backup':
      return `${file} is not a whole backup of a hub (${problem.detail}). Nothing was changed.`;
  }
}
