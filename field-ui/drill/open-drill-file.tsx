import { useState } from 'react';
import { drillFileWords, readDrillFile } from '../../shared/device/drill-file.ts';
import { keptTechName } from '../device/tech-name.ts';
import { useField } from '../frame/field-context.ts';
import { FilePick } from '../start/file-pick.tsx';
import { keepDrillEdition } from './keep-drill-edition.ts';
import { useBeginDrill } from './use-begin-drill.ts';

/** Bytes of the largest drill file that is read; it carries its tree. */
const LARGEST = 40 * 1024 * 1024;

/** Takes in a drill that a trainer handed over as a file, and begins it. */
export function OpenDrillFile() {
  const { db, editions } = useField();
  const [said, setSaid] = useState<string>();
  const drill = useBeginDrill(setSaid);
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
    const { edition: content, task } = opened.value;
    await drill.press(async () => {
      const edition = await editions.walkable(await keepDrillEdition(db, content));
      if (edition) await drill.begin(edition, task, keptTechName());
      else setSaid('The tree in the file could not be kept.');
    });
  };
  return <FilePick label="Open a drill file" accept=".json,application/json" said={said} onFile={read} />;
}
