/** Hands a file to the browser to be saved. */
export function saveFile(name: string, type: string, text: string): void {
  const address = URL.createObjectURL(new Blob([text], { type }));
  const link = document.createElement('a');
  link.href = address;
  link.download = name;
  link.click();
  // The download has to have begun before the address goes.
  setTimeout(() => URL.revokeObjectURL(address), 60_000);
}
