import { useState } from 'react';
import { capital } from '../../shared/ui/words/plain-words.ts';
import { chooseTheme, chosenTheme, THEMES } from '../device/theme.ts';

export function ThemeChoice() {
  const [theme, setTheme] = useState(chosenTheme);
  return (
    <label className="theme-choice">
      <span className="unseen">Theme</span>
      <select
        value={theme}
        onChange={(event) => {
          const next = THEMES.find((name) => name === event.target.value) ?? 'system';
          chooseTheme(next);
          setTheme(next);
        }}
      >
        {THEMES.map((name) => (
          <option key={name} value={name}>
            {name === 'system' ? 'Theme: device' : capital(name)}
          </option>
        ))}
      </select>
    </label>
  );
}
