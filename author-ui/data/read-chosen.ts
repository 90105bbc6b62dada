/** A file as it was chosen or dropped; without a text where it could not be read. */
export type ChosenFile = { readonly name: string; readonly text?: string };

/** Reads a chosen file. A folder that is dropped comes as a file, and a file may be gone since it was chosen. */
export async function readChosen(file: File, read: (file: File) => Promise<string> = (one) => one.text()): Promise<ChosenFile> {
  const text = await read(file).catch(() => undefined);
  return { name: file.name, ...(text !== undefined && { text }) };
}
