/** `system` follows the device. */
export const THEMES = ['system', 'sunlight', 'dark'] as const;
export type Theme = (typeof THEMES)[number];

const KEY = 'ohmward-theme';

export function chosenTheme(): Theme {
  try {
    const kept = localStorage.getItem(KEY);
    return THEMES.find((theme) => theme === kept) ?? 'system';
  } catch {
    return 'system';
  }
}

/** Shows a theme and keeps the choice. Without storage it holds until the app is closed. */
export function chooseTheme(theme: Theme): void {
  const root = document.documentElement;
  if (theme === 'system') delete root.dataset.theme;
  else root.dataset.theme = theme;
  try {
    localStorage.setItem(KEY, theme);
  } catch {
    // The choice is only a comfort.
  }
}
