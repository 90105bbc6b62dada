import { useState } from 'react';
import { type DrillRecord, readDrillRecord, recordProblemWords } from '../../engine/review/index.ts';

/** A drill that was done and came as a file. */
export function OpenResultFile({ onRecord }: { readonly onRecord: (record: DrillRecord) => void }) {
  const [said, setSaid] = useState<string>();
  const read = async (file: File): Promise<void> => {
    let input: unknown;
    try {
      input = JSON.parse(await file.text());
    } catch {
      input = undefined;
    }
    const record = readDrillRecord(input);
    if (record.ok) {
      onRecord(record.value);
      return;
    }
    const { message, fix } = recordProblemWords(record.problem);
    setSaid(`${message} ${fix}`);
  };
  return (
    <section aria-labelledby="result-file-title">
      <h2 id="result-file-title">A drill that came as a file</h2>
      <label className="crew-field drill-file">
        File that ends in .ohmward-drill-run.json
        <input
          type="file"
          accept=".json,application/json"
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void read(file);
            event.target.value = '';
          }}
        />
      </label>
      <p role="status">{said}</p>
    </section>
  );
}
