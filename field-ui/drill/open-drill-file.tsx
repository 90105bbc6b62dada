import { useState } from 'react';
import { drillFileWords, readDrillFile } from '../../shared/device/drill-file.ts';
import { keptTechName } from '../device/tech-name.ts';
import { useField } from '../frame/field-context.ts';
import { useLeft } from '../frame/use-left.ts';
import { go } from '../frame/use-route.ts';
import { FilePick } from '../start/file-pick.tsx';
import { storageErrorWords } from '../storage/storage-words.ts';
import { keepDrillEdition } from './keep-drill-edition.ts';
import { startDrill } from './start-drill.ts';
import { useDrillStore } from './use-drill-store.ts';

/** Bytes of the largest drill file that is read; it carries its tree. */
const LARGEST = 40 * 1024 * 1024;

/** Takes in a drill that a trainer handed over as a file, and begins it. */
export function OpenDrillFile() {
  const { db, editions } = useField();
  const store = useDrillStore();
  const left = useLeft();
  const [said, setSaid] = useState<string>();
  const read = async (file: File): Promise<void> => {
    if (file.size > LARGEST) {
      setSaid('The file is too large to be a drill. Nothing on this device was changed.');
      return;
    }
    const opened = readDrillFile(await file.text());
    if (!opened.ok) {
      setSaid(`${drillFileWords(opened.problem)} Nothing on this device was changed.`);
      return;
    }
    try {
      const hash = await keepDrillEdition(db, opened.value.edition);
      const edition = await editions.walkable(hash);
      const started = edition && (await startDrill(edition, opened.value.task, store, keptTechName()));
      if (!started?.ok) setSaid(started ? started.problem : 'The tree in the file could not be kept.');
      else if (!left.current) go({ screen: 'drill', run: started.value });
    } catch (error) {
      setSaid(storageErrorWords(error));
    }
  };
  return <FilePick label="Open a drill file" accept=".json,application/json" said={said} onFile={read} />;
}
