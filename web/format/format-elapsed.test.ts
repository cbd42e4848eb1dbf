import { expect, it } from 'vitest';
import { formatElapsed } from './format-elapsed.ts';

it('tells minutes and seconds, and hours where there are any', () => {
  expect([0, 26.9, 60, 116, 3723].map(formatElapsed)).toEqual(['0:00', '0:26', '1:00', '1:56', '1:02:03']);
});
