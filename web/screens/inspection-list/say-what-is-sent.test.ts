import { expect, it } from 'vitest';
import { sayWhatIsSent } from './say-what-is-sent.ts';

const none = { hold: 0, book: 0, watch: 0, steady: 0, unknown: 0 };

it('counts what was sent, and says which must stand', () => {
  expect(sayWhatIsSent({ ...none, book: 1 })).toBe('1 vehicle is sent to you.');
  expect(sayWhatIsSent({ ...none, book: 2, hold: 1 })).toBe(
    '3 vehicles are sent to you. 1 of them is not to be driven before an inspection.',
  );
  expect(sayWhatIsSent({ ...none, hold: 1 })).toBe(
    '1 vehicle is sent to you. It is not to be driven before an inspection.',
  );
  expect(sayWhatIsSent({ ...none, hold: 2 })).toMatch(/All are not to be driven/);
  expect(sayWhatIsSent(none)).toBe('No vehicle matches.');
});
