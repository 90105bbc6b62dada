import { useState } from 'react';
import { keepEdition } from '../../shared/device/keep-edition.ts';
import { publicationProblemWords, readEditionFile } from '../../shared/device/publication.ts';
import { useField } from '../frame/field-context.ts';
import { useLeft } from '../frame/use-left.ts';
import { go } from '../frame/use-route.ts';
import { storageErrorWords } from '../storage/storage-words.ts';
import { FilePick } from './file-pick.tsx';

/** Bytes of the largest edition file that is read. */
const LARGEST = 40 * 1024 * 1024;

/** Takes in a tree that was published to a file. */
export function OpenEdition() {
  const { db } = useField();
  const left = useLeft();
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
      const edition = await keepEdition(db, opened.value.edition, 'file');
      if (!left.current) go({ screen: 'tree', edition });
    } catch (error) {
      setSaid(storageErrorWords(error));
    }
  };
  return <FilePick label="Open an edition file" accept=".json,application/json" said={said} onFile={read} />;
}
