import { useState } from 'react';
import { keepEdition } from '../../shared/device/keep-edition.ts';
import { publicationProblemWords, readEditionFile } from '../../shared/device/publication.ts';
import { useField } from '../frame/field-context.ts';
import { go } from '../frame/use-route.ts';
import { storageProblem } from '../storage/storage-problem.ts';
import { storageWords } from '../storage/storage-words.ts';
import { FilePick } from './file-pick.tsx';

/** Bytes of the largest edition file that is read. */
const LARGEST = 40 * 1024 * 1024;

/** Takes in a tree that was published to a file. */
export function OpenEdition() {
  const { db } = useField();
  const [said, setSaid] = useState<string>();
  const read = async (file: File): Promise<void> => {
    if (file.size > LARGEST) {
      setSaid('The file is too large to be an edition. Nothing on this device was changed.');
      return;
    }
    const opened = readEditionFile(await file.text());
    if (!opened.ok) {
      setSaid(`${publicationProblemWords(opened.problem)} Nothing on this device was changed.`);
      return;
    }
    try {
      go({ screen: 'tree', edition: await keepEdition(db, opened.value.edition, 'file') });
    } catch (error) {
      const { happened, todo } = storageWords(storageProblem(error));
      setSaid(`${happened} ${todo}`);
    }
  };
  return <FilePick label="Open an edition file" accept=".json,application/json" said={said} onFile={read} />;
}
