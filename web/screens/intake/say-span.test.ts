import { expect, it } from 'vitest';
import { saySpan } from './say-span.ts';

it.each([
  [0.2, 'under a second'],
  [40, '40 s'],
  [110, '2 minutes'],
  [3600, '60 minutes'],
  [7200, '2 hours'],
  [86_400, '24 hours'],
  [3 * 86_400 + 4000, '3 days'],
])('says %d s as one thinks of it', (seconds, words) => {
  expect(saySpan(seconds).replaceAll('\u00a0', ' ')).toBe(words);
});
