import { expect, it } from 'vitest';
import { refuseFewFailures } from './refuse-few-failures.ts';

const failed = (exit: number, count = 1) => ({ entry: 0, exit, event: true, count });
const ran = (exit: number) => ({ entry: 0, exit, event: false, count: 1 });
const needed = 'at least 2 failures at different mileages';

it('runs as its note says', () => {
  expect(refuseFewFailures([failed(3)])).toMatchObject({ declined: { needed } });
});

it.each([
  [[ran(4)], 'no failures', '0 failures'],
  [[failed(3), ran(4)], 'too few failures', '1 failure'],
  [[failed(3, 5), ran(2)], 'all failures at one mileage: the fit has no maximum', '5 failures, all at 3'],
  [[failed(3), failed(3), ran(4)], 'all failures at one mileage', '2 failures, all at 3'],
])('of %j says %s', (lives, reason, got) => {
  expect(refuseFewFailures(lives)).toEqual({ declined: { reason, needed, got } });
});

it('lets two different ones pass', () => {
  expect(refuseFewFailures([failed(3), failed(4)])).toBeNull();
});
