import { expect, test } from 'vitest';
import { confirmRequest, NOTHING_CHOSEN, saidWords } from './confirm-choice.ts';

const said = (what: object) => saidWords({ walk: 'w', at: '', personName: '', ...what }, {});

test('a finding that names one fault and held was that fault', () => {
  expect(confirmRequest({ ...NOTHING_CHOSEN, how: 'held' }, ['coil-open'], 'own')).toEqual({ held: true, bench: 'own', fault: 'coil-open' });
});

test('a finding that names two faults and held leaves open which it was', () => {
  expect(confirmRequest({ ...NOTHING_CHOSEN, how: 'held' }, ['coil-open', 'coil-short'], 'own')).toEqual({ held: true });
});

test('another fault has to be named with its bench', () => {
  expect(confirmRequest({ ...NOTHING_CHOSEN, how: 'other' }, ['a'], 'own')).toBe('choose-fault');
  expect(confirmRequest({ how: 'other', fault: 'own/limit-open', note: ' It clicked. ' }, ['a'], 'own')).toEqual({
    held: false,
    bench: 'own',
    fault: 'limit-open',
    note: 'It clicked.',
  });
});

test('nothing chosen says nothing', () => expect(confirmRequest(NOTHING_CHOSEN, [], undefined)).toBe('choose'));

test('what came back names no fault', () => {
  expect(confirmRequest({ how: 'came-back', fault: 'own/limit-open', note: '' }, ['a'], 'own')).toEqual({ held: false });
});

test('every kind of word has its sentence', () => {
  expect([said({ held: true }), said({ held: false }), said({}), said({ held: false, bench: 'own', fault: 'limit-open' })]).toEqual([
    'It held.',
    'It came back.',
    'What was said before is taken back.',
    'It was another fault: limit open.',
  ]);
});
