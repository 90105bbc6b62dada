import { describe, expect, it } from 'vitest';
import { TEXT, textWidth, UNBROKEN, wrapped } from './text-size.ts';

describe('wrapped', () => {
  it('breaks between words', () => {
    expect(wrapped('high pressure switch', 12, 60)).toEqual(['high', 'pressure', 'switch']);
    expect(wrapped('high pressure switch', 12, 200)).toEqual(['high pressure switch']);
  });

  it('keeps a number with its unit', () => {
    expect(wrapped(`120${UNBROKEN}V to 24${UNBROKEN}V`, 11, 60)).toEqual([`120${UNBROKEN}V to`, `24${UNBROKEN}V`]);
  });

  it('cuts what is longer than its lines', () => {
    expect(wrapped('a very long name that nobody would print', 12, 40)).toHaveLength(3);
    expect(wrapped('a very long name that nobody would print', 12, 40).at(-1)).toMatch(/…$/);
  });
});

describe('textWidth', () => {
  it('grows with the text and its size', () => {
    expect(textWidth('WW', 12)).toBeGreaterThan(textWidth('ii', 12));
    expect(textWidth('R', 24)).toBeGreaterThan(textWidth('R', 12));
  });

  it('has no text too small to read', () => {
    expect(Math.min(TEXT.name, TEXT.small)).toBeGreaterThanOrEqual(11);
  });
});
