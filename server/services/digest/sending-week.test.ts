import { expect, it } from 'vitest';
import { sendingWeek } from './sending-week.ts';

it.each([
  ['2026-03-01T23:59:59Z', null],
  ['2026-03-02T05:59:59Z', null],
  ['2026-03-02T06:00:00Z', '2026-03-02'],
  ['2026-03-02T23:59:59Z', '2026-03-02'],
  ['2026-03-03T23:59:59Z', '2026-03-02'],
  ['2026-03-04T00:00:00Z', null],
  ['2026-12-29T12:00:00Z', '2026-12-28'],
])('at %s the digest of week %s is sent', (now, week) => {
  expect(sendingWeek(new Date(now))).toBe(week);
});
