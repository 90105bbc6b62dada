import { type DragEvent, useState } from 'react';
import { type ChosenFile, readChosen } from '../data/read-chosen.ts';
import { useDeskStore } from '../store/use-desk-store.ts';
import { type ImportOutcome, isPicture, MOST_LETTERS, planImport } from './import-files.ts';

const readPicture = (file: File): Promise<string> =>
  new Promise((resolve, reject) => {
    const reader = new FileReader();
    reader.addEventListener('load', () => resolve(String(reader.result)));
    reader.addEventListener('error', () => reject(reader.error));
    reader.readAsDataURL(file);
  });

/** The text of a file as it is kept; one that is too large is not even read. */
async function readFile(file: File): Promise<ChosenFile> {
  if (file.size > MOST_LETTERS) return { name: file.name, text: ' '.repeat(MOST_LETTERS + 1) };
  return isPicture(file.name) ? readChosen(file, readPicture) : readChosen(file);
}

/** Bringing files in, from a picker or dropped on the page, and what became of them. */
export function useImport() {
  const store = useDeskStore();
  const [outcomes, setOutcomes] = useState<readonly ImportOutcome[]>([]);
  const [isOver, setOver] = useState(false);
  const importFiles = async (files: readonly File[]): Promise<void> => {
    if (files.length === 0) return;
    const { writes, outcomes: told } = planImport(await Promise.all(files.map(readFile)), store.files());
    store.apply(writes, writes.size === 1 ? `Import ${files[0]?.name}` : `Import ${writes.size} files`);
    setOutcomes(told);
  };
  return {
    outcomes,
    isOver,
    importFiles: (files: readonly File[]): void => void importFiles(files),
    forget: (): void => setOutcomes([]),
    dropTarget: {
      onDragOver: (event: DragEvent): void => {
        if (!event.dataTransfer.types.includes('Files')) return;
        event.preventDefault();
        setOver(true);
      },
      onDragLeave: (event: DragEvent): void => {
        if (event.currentTarget === event.target) setOver(false);
      },
      onDrop: (event: DragEvent): void => {
        event.preventDefault();
        setOver(false);
        void importFiles([...event.dataTransfer.files]);
      },
    },
  };
}
