import { expect, it } from 'vitest';
import { sayWhatIsDue } from './say-what-is-due.ts';

const none = { hold: 0, book: 0, watch: 0, steady: 0, unknown: 0 };

it.each([
  [
    { ...none, hold: 4, book: 9, steady: 227 },
    '13 of 240 vehicles need a bay, 4 of them before their next run.',
  ],
  [{ ...none, hold: 1, book: 1, steady: 1 }, '2 of 3 vehicles need a bay, 1 of them before its next run.'],
  [{ ...none, hold: 2, steady: 8 }, '2 of 10 vehicles need a bay before their next run.'],
  [{ ...none, book: 1, steady: 8 }, '1 of 9 vehicles needs a bay, none before its next run.'],
  [{ ...none, steady: 1200 }, 'None of 1,200 vehicles needs a bay yet.'],
  [none, 'No vehicle matches.'],
])('says %o as: %s', (counts, text) => expect(sayWhatIsDue(counts)).toBe(text));
