import { expect, it } from 'vitest';
import { namesClutch } from './clutch-codes.ts';

it.each(['P0740', 'P0741', 'P0742', 'P0743', 'P0744', 'P0894', 'p0741'])(
  'takes %s for the clutch',
  (code) => {
    expect(namesClutch(code)).toBe(true);
  },
);

it.each(['P0300', 'P0745', 'P07410', '', '0741'])('leaves %j alone', (code) => {
  expect(namesClutch(code)).toBe(false);
});
