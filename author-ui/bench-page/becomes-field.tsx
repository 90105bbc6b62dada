import { useState } from 'react';
import { FAULT_MODES } from '../../engine/bench/index.ts';

/** How a part breaks, as its form asks for it. */
type Becomes = { readonly how: string; readonly one: string; readonly two: string };

const OWN = ['value', 'state', 'link', 'move'] as const;

const MODE_WORDS: Readonly<Record<(typeof FAULT_MODES)[number], string>> = {
  open: 'open: broken, no current',
  shorted: 'shorted: as good as a wire',
  absent: 'absent: nobody fitted or landed it',
  'stuck-open': 'stuck open: never closes',
  'stuck-closed': 'stuck closed: never opens',
  blown: 'blown: a fuse that is gone',
  grounded: 'grounded: it touches the cabinet',
  swapped: 'swapped: its two ends are exchanged',
  'primary-open': 'primary open',
  'secondary-open': 'secondary open',
};

/** Reads `open`, `80 ohm`, `shut`, `to C`, `moved from K1 to C`. */
export function readBecomes(text: string): Becomes {
  const plain = text.trim();
  const modes: readonly string[] = FAULT_MODES;
  if (plain === '' || modes.includes(plain)) return { how: plain, one: '', two: '' };
  const move = /^moved\s+from\s*(\S*)\s+to\s*(\S*)$/.exec(plain);
  if (move) return { how: 'move', one: move[1] ?? '', two: move[2] ?? '' };
  const link = /^to(?:\s+(\S*))?$/.exec(plain);
  if (link) return { how: 'link', one: link[1] ?? '', two: '' };
  return { how: /^[a-z0-9]*[a-z][a-z0-9]*(-[a-z0-9]+)*$/.test(plain) ? 'state' : 'value', one: plain, two: '' };
}

export function writeBecomes({ how, one, two }: Becomes): string {
  switch (how) {
    case 'value':
    case 'state':
      return one;
    case 'link':
      return `to ${one}`;
    case 'move':
      return `moved from ${one} to ${two}`;
    default:
      return how;
  }
}

type BecomesFieldProps = { readonly id: string; readonly text: string; readonly points: string; readonly onText: (text: string) => void };

/** What a part becomes under a fault: one of the usual ways, or a value, state or point of its own. */
export function BecomesField({ id, text, points, onText }: BecomesFieldProps) {
  const [now, setNow] = useState(() => readBecomes(text));
  const change = (next: Becomes): void => {
    setNow(next);
    onText(next.one === '' && (next.how === 'link' || next.how === 'move') ? '' : writeBecomes(next));
  };
  const point = (label: string, key: 'one' | 'two') => (
    <label>
      {label} <input value={now[key]} list={points} autoComplete="off" onChange={(event) => change({ ...now, [key]: event.target.value })} />
    </label>
  );
  return (
    <div className="entry-field entry-becomes">
      <label htmlFor={id}>Becomes</label>
      <select id={id} value={now.how} onChange={(event) => change({ how: event.target.value, one: '', two: '' })}>
        <option value="">choose</option>
        {FAULT_MODES.map((mode) => (
          <option key={mode} value={mode}>
            {MODE_WORDS[mode]}
          </option>
        ))}
        {OWN.map((how) => (
          <option key={how} value={how}>
            {
              {
                value: 'drifted: a value of its own…',
                state: 'a state of its own, such as shut…',
                link: 'shorted to another point…',
                move: 'landed on another point…',
              }[how]
            }
          </option>
        ))}
      </select>
      {now.how === 'value' && (
        <label>
          Value <input value={now.one} placeholder="80 ohm" autoComplete="off" onChange={(event) => change({ ...now, one: event.target.value })} />
        </label>
      )}
      {now.how === 'state' && (
        <label>
          State <input value={now.one} placeholder="shut" autoComplete="off" onChange={(event) => change({ ...now, one: event.target.value })} />
        </label>
      )}
      {now.how === 'link' && point('To', 'one')}
      {now.how === 'move' && (
        <>
          {point('Moved from', 'one')} {point('to', 'two')}
        </>
      )}
    </div>
  );
}
