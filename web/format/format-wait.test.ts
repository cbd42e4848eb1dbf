import { expect, it } from 'vitest';
import { formatWait } from './format-wait.ts';

it('never says less than there is to wait', () => {
  expect(formatWait(1)).toBe('a minute');
  expect(formatWait(61)).toBe('2 minutes');
  expect(formatWait(840)).toBe('14 minutes');
  expect(formatWait(841)).toBe('15 minutes');
  expect(formatWait(5400)).toBe('90 minutes');
  expect(formatWait(5401)).toBe('2 hours');
});
