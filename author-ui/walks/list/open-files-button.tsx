import { useRef } from 'react';
import { type ChosenFile, readChosen } from '../../data/read-chosen.ts';

/** Larger than any log or edition; such a file is not even read. */
const MOST_BYTES = 64 * 1024 * 1024;

const readFile = async (file: File): Promise<ChosenFile> => (file.size > MOST_BYTES ? { name: file.name, text: '' } : readChosen(file));

type OpenFilesButtonProps = { readonly open: (files: readonly ChosenFile[]) => void; readonly busy: boolean; readonly loud: boolean };

/** Takes logs and editions from files, any number at once. */
export function OpenFilesButton({ open, busy, loud }: OpenFilesButtonProps) {
  const input = useRef<HTMLInputElement>(null);
  const take = async (list: FileList | null): Promise<void> => {
    const files = await Promise.all([...(list ?? [])].map(readFile));
    if (input.current) input.current.value = '';
    if (files.length > 0) open(files);
  };
  return (
    <>
      <button type="button" className={loud ? 'button' : 'button button-quiet'} disabled={busy} onClick={() => input.current?.click()}>
        {busy ? 'Opening…' : 'Open logs from files'}
      </button>
      <input
        ref={input}
        type="file"
        multiple
        hidden
        aria-label="Logs and editions"
        accept=".jsonl,.json,application/json,application/x-ndjson"
        onChange={(event) => void take(event.target.files)}
      />
    </>
  );
}
