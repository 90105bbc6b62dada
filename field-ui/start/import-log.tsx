import { useState } from 'react';
import { counted } from '../../shared/ui/words/plain-words.ts';
import { useField } from '../frame/field-context.ts';
import { useLeft } from '../frame/use-left.ts';
import { go } from '../frame/use-route.ts';
import { importLog } from '../log/import-log.ts';
import { importWords } from '../log/import-words.ts';
import { FilePick } from './file-pick.tsx';

/** Bytes of the largest log file that is read: far more than the longest call. */
const LARGEST = 20 * 1024 * 1024;

/** Takes in a call that was saved as a log file, here or on another phone. */
export function ImportLog() {
  const { db, editions, crew } = useField();
  const left = useLeft();
  const [said, setSaid] = useState<string>();
  const read = async (file: File): Promise<void> => {
    if (file.size > LARGEST) {
      setSaid('The file is too large to be the log of a call. Nothing on this device was changed.');
      return;
    }
    const imported = await importLog(db, editions, await file.text());
    if (!imported.ok) setSaid(importWords(imported.problem));
    else if (imported.value.added === 0) setSaid('This call is on the device already, with everything the file has.');
    else {
      crew.nudge();
      setSaid(`${counted(imported.value.added, 'entry', 'entries')} taken in.`);
      if (!left.current) go({ screen: 'walk', walk: imported.value.walk });
    }
  };
  return <FilePick label="Open a saved call log" accept=".jsonl,application/jsonl,application/x-ndjson,text/plain" said={said} onFile={read} />;
}
