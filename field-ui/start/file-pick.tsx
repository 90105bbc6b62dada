import { useState } from 'react';

type FilePickProps = {
  readonly label: string;
  readonly accept: string;
  /** What came of the last file; stays until the next one. */
  readonly said: string | undefined;
  readonly onFile: (file: File) => Promise<void>;
};

/** A button that takes one file, and a line for what came of it. The same file can be taken again, once the one before is done with. */
export function FilePick({ label, accept, said, onFile }: FilePickProps) {
  const [busy, setBusy] = useState(false);
  const [failed, setFailed] = useState(false);
  const take = async (file: File): Promise<void> => {
    setBusy(true);
    setFailed(false);
    try {
      await onFile(file);
    } catch {
      // Gone from its place since it was chosen, or on a card that was taken out.
      setFailed(true);
    }
    setBusy(false);
  };
  return (
    <section className="start-import">
      <label className="button button-line file-button" aria-disabled={busy}>
        {label}
        <input
          type="file"
          accept={accept}
          disabled={busy}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void take(file);
            event.target.value = '';
          }}
        />
      </label>
      <p role="status">{failed ? 'The file could not be read. Choose it again; nothing on this device was changed.' : said}</p>
    </section>
  );
}
