/** A short text that this browser keeps between visits; empty where there is none. */
export function keptText(key: string): string {
  try {
    return localStorage.getItem(key) ?? '';
  } catch {
    return '';
  }
}

/** Where the browser keeps nothing it is only a convenience that is lost: the text is typed again. */
export function keepText(key: string, text: string): void {
  try {
    localStorage.setItem(key, text);
  } catch {
    // As above.
  }
}
