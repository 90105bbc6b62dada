// Small, so that twenty thousand of them are read in a minute, with every sort of piece that the language has.
export const UNDAMAGED = `---
title: No heat
complaint: It stays off.
benches: [own-transformer]
facts:
  rated: { quantity: ac-voltage, ask: Rated, usual: 24 V, from: 22 V, to: 27 V }
recheck: look is lit
---

<Caution signal="warning" about="gas">

Mind **it**.

</Caution>

## Power

<Reading takes="ac-voltage" across="R to C" while="heat-call on" minutes={2} />

- a [link](#look)

<Next>

- below 85 % of rated: [Look](#look)
- otherwise: [Off](#off)
- cannot: [Stop](#stop)

</Next>

## Off

<Act does="turn main-power off" />

<Next>

- done: [Open](#open)

</Next>

## Look

<Look sign="display-lit" />

<Next>

- lit: [Open](#open)
- dark: [Stop](#stop)

</Next>

## Open

<Finding faults="coil-open" />

<Repair>

Replace it.

</Repair>

## Stop

<Handoff to="You" />
`;

/** Marsaglia's xorshift32: a fixed sequence, so that a file that fails can be made again from its number. */
function numbers(seed: number): (below: number) => number {
  let x = seed | 0 || 1;
  return (below) => {
    x ^= x << 13;
    x ^= x >>> 17;
    x ^= x << 5;
    return (x >>> 0) % below;
  };
}

// Tokens that mean something to one of the three languages that a tree file is written in.
const TOKENS = [
  '{',
  '}',
  '<',
  '>',
  '</',
  '/>',
  '"',
  "'",
  '`',
  '```',
  '*',
  '**',
  '_',
  '[',
  ']',
  '(',
  ')',
  '#',
  '##',
  '# ',
  '- ',
  '> ',
  '1. ',
  '---',
  '\n',
  '\n\n',
  '\t',
  '  ',
  ':',
  ': ',
  '=',
  '&',
  '&amp;',
  '&#0;',
  '\\',
  '|',
  '!',
  '![',
  '<!--',
  '-->',
  '{/*',
  '*/}',
  'import x',
  'export ',
  '<Next>',
  '</Next>',
  '<Caution>',
  '</Caution>',
  '<Reading ',
  '<script>',
  '{...x}',
  '={1}',
  '={x}',
  '%',
  ' % of ',
  ' to ',
  'below ',
  'above ',
  'within ',
  'otherwise',
  'open',
  '1e999',
  '-',
  'V',
  ' ohm',
  '°F',
  'rated',
  '__proto__',
  'constructor',
  'null',
  '&a',
  '*a',
  '!!js',
  '? ',
  '- - - ',
  '|',
  '>-',
  '\u0000',
  '\u0007',
  '\u00a0',
  '\u2028',
  '\ufeff',
  '\ufffd',
  '\ud800',
  '😀',
  '\r',
  '\r\n',
] as const;

/** The small tree with a few bytes and tokens of it changed; always the same for the same number. */
export function damaged(number: number): string {
  const random = numbers(number * 2654435761);
  let text = UNDAMAGED;
  for (let left = 1 + random(4); left > 0; left -= 1) {
    const at = random(text.length + 1);
    const length = random(4) === 0 ? random(120) : random(6);
    const token = TOKENS[random(TOKENS.length)] ?? '';
    switch (random(6)) {
      case 0: // A byte that a bad disk or a bad line leaves.
        text = text.slice(0, at) + String.fromCharCode(random(256)) + text.slice(at + 1);
        break;
      case 1:
        text = text.slice(0, at) + text.slice(at + length);
        break;
      case 2:
        text = text.slice(0, at) + token + text.slice(at);
        break;
      case 3:
        text = text.slice(0, at) + token.repeat(1 + random(40)) + text.slice(at + length);
        break;
      case 4: {
        const from = random(text.length);
        text = text.slice(0, at) + text.slice(from, from + random(200)) + text.slice(at);
        break;
      }
      default:
        text = text.slice(0, at + random(80)) || UNDAMAGED;
    }
  }
  return text;
}
