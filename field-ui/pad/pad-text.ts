/** A press on the pad. */
export type PadPress =
  | { readonly key: 'digit'; readonly digit: string }
  | { readonly key: 'point' }
  | { readonly key: 'sign' }
  | { readonly key: 'unit'; readonly unit: string }
  | { readonly key: 'open' }
  | { readonly key: 'back' }
  | { readonly key: 'clear' };

// What the pad itself makes: sign, digits with one point, unit. Anything else came from a keyboard and is edited at its end.
const MADE = /^(-?)(\d*\.?\d*)( .+)?$/;
const MOST = 40;

/** The text after one press. Whole units and OL go with one press of back, as they came. */
export function padText(text: string, press: PadPress): string {
  const next = pressed(text === 'OL' && press.key !== 'back' && press.key !== 'clear' ? '' : text, press);
  return next.length > MOST ? text : next;
}

function pressed(text: string, press: PadPress): string {
  const made = MADE.exec(text);
  const [, sign = '', number = '', unit = ''] = made ?? [];
  switch (press.key) {
    case 'digit':
      return made ? `${sign}${number === '0' ? '' : number}${press.digit}${unit}` : text + press.digit;
    case 'point':
      if (!made) return `${text}.`;
      return number.includes('.') ? text : `${sign}${number === '' ? '0' : number}.${unit}`;
    case 'sign':
      if (made) return `${sign === '' ? '-' : ''}${number}${unit}`;
      return text.startsWith('-') ? text.slice(1) : `-${text}`;
    case 'unit':
      // The same unit again takes it off: the bare number is in the step's own unit.
      return made ? `${sign}${number}${unit === ` ${press.unit}` ? '' : ` ${press.unit}`}` : `${text} ${press.unit}`;
    case 'open':
      return 'OL';
    case 'clear':
      return '';
    case 'back':
      if (text === 'OL') return '';
      return made && unit !== '' ? `${sign}${number}` : text.slice(0, -1);
  }
}
