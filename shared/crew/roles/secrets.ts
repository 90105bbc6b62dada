import { createHash, randomBytes } from 'node:crypto';

// A device's secret is 256 random bits, and a code 100: neither can be found by trying, so a plain SHA-256 keeps them. What is
// stored opens nothing.

/** Crockford's base 32: no I, L, O or U, so that a code can be read out. */
const LETTERS = '0123456789ABCDEFGHJKMNPQRSTVWXYZ';
const CODE_LENGTH = 20;

export const hashSecret = (secret: string): string => createHash('sha256').update(secret, 'utf8').digest('hex');

/** A device's token, which is also a desk's cookie. */
export const newSecret = (): string => randomBytes(32).toString('base64url');

export const isSecret = (text: string): boolean => /^[\w-]{43}$/.test(text);

/** A one-time code of 100 random bits, in groups of five. */
export function newCode(): string {
  const letters = Array.from(randomBytes(CODE_LENGTH), (byte) => LETTERS[byte % 32]).join('');
  return (letters.match(/.{5}/g) ?? []).join('-');
}

/** The letters of a code as someone typed it; undefined where it cannot be one. */
export function plainCode(typed: string): string | undefined {
  const letters = typed.toUpperCase().replace(/[\s-]/g, '').replace(/O/g, '0').replace(/[IL]/g, '1');
  return letters.length === CODE_LENGTH && [...letters].every((letter) => LETTERS.includes(letter)) ? letters : undefined;
}

/** What is stored of a code. */
export const hashCode = (code: string): string => hashSecret(plainCode(code) ?? '');

export const newId = (kind: string): string => `${kind}-${Array.from(randomBytes(16), (byte) => LETTERS[byte % 32]?.toLowerCase()).join('')}`;
