const KEY = 'ohmward-tech';

/** The name that the tech gave last, so that it is typed once a phone. */
export function keptTechName(): string {
  try {
    return localStorage.getItem(KEY) ?? '';
  } catch {
    return '';
  }
}

export function keepTechName(name: string): void {
  try {
    localStorage.setItem(KEY, name);
  } catch {
    // Typed again next time.
  }
}
