import { expect, it } from 'vitest';
import { formatMoney, formatPrice } from './format-money.ts';

it('rounds what is expected, and never what somebody wrote down', () => {
  expect(formatMoney(2380)).toBe('2,400');
  expect(formatPrice(2380)).toBe('2,380');
  expect(formatPrice(980.5)).toBe('980.5');
  expect(formatPrice(null)).toBe('–');
});
