type FilePickProps = {
  readonly label: string;
  readonly accept: string;
  /** What came of the last file; stays until the next one. */
  readonly said: string | undefined;
  readonly onFile: (file: File) => Promise<void>;
};

/** A button that takes one file, and a line for what came of it. The same file can be taken again. */
export function FilePick({ label, accept, said, onFile }: FilePickProps) {
  return (
    <section className="start-import">
      <label className="button button-line file-button">
        {label}
        <input
          type="file"
          accept={accept}
          onChange={(event) => {
            const [file] = event.target.files ?? [];
            if (file) void onFile(file);
            event.target.value = '';
          }}
        />
      </label>
      <p role="status">{said}</p>
    </section>
  );
}
