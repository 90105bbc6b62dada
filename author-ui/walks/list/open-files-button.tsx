import { useRef } from 'react';
import type { OpenedFile } from '../source/read-opened.ts';

/** Larger than any log or edition; such a file is not even read. */
const MOST_BYTES = 64 * 1024 * 1024;

async function readFile(file: File): Promise<OpenedFile> {
  const { name, size } = file;
  if (size > MOST_BYTES) return { name, text: '' };
  const text = await file.text().catch(() => undefined);
  return { name, ...(text !== undefined && { text }) };
}

type OpenFilesButtonProps = { readonly open: (files: readonly OpenedFile[]) => void; readonly busy: boolean; readonly loud: boolean };

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
