import { expect, it } from 'vitest';
import type { Gateway } from '#server/contract/intake.ts';
import { sayQuiet, sayUsual } from './say-quiet.ts';

const gateway: Gateway = {
  sender: { id: 'key:a', kind: 'key', name: 'North yard' },
  right: 'deliver',
  ended_at: null,
  last_at: '2026-03-01T12:00:00Z',
  usual_s: 86_400,
  quiet_after_s: 345_600,
  quiet: true,
  vehicles: 14,
  readings_per_day: 0,
  refused_share: null,
};

it('says since when a gateway is quiet, what is usual and who is behind it', () => {
  const words = sayQuiet(gateway, '2026-03-08T12:00:00Z').replaceAll('\u00a0', ' ');
  expect(words).toMatch(/^North yard has brought nothing since 1 Mar 2026, \d\d:00, 7 days ago;/);
  expect(words).toMatch(/usually delivers every 24 hours\. 14 vehicles report through it\.$/);
  expect(sayQuiet({ ...gateway, vehicles: 1 }, '2026-03-08T12:00:00Z')).toMatch(
    /One vehicle reports through it/,
  );
});

it('says an interval as it stands behind every', () => {
  expect([0.2, 900, 3600].map((s) => sayUsual(s).replaceAll('\u00a0', ' '))).toEqual([
    'second or more often',
    '15 minutes',
    '60 minutes',
  ]);
});
