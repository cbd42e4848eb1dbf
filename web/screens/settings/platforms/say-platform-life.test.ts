import { expect, it } from 'vitest';
import type { LifeFit } from '#server/contract/lives.ts';
import { metricUnits } from '#web/format/units.ts';
import { sayPlatformLife } from './say-platform-life.ts';

const fit: LifeFit = {
  platform: 'bus',
  fitted_at: '2026-11-03T04:00:00Z',
  basis: 'own',
  lives: 75,
  failures: 14,
  fleet_failures: 20,
  shape: 2,
  scale_km: 320_000,
  b10_km: { estimate: 104_000, low: 80_000, high: 130_000 },
  b50_km: { estimate: 266_000, low: 210_000, high: 337_000 },
  says: 'fitted from 14 failures of its own on 3 Nov 2026',
};

it('says which life the list reckons with, how sure it is and what it rests on', () => {
  expect(sayPlatformLife(fit, metricUnits)).toBe(
    'The list reckons with half of them failed by 270,000\u00a0km (210,000 to 340,000\u00a0km), fitted from 14 failures of its own on 3 Nov 2026. The expected life does not act meanwhile.',
  );
});

it('says nothing where the expected life counts, or none is known', () => {
  expect(sayPlatformLife({ ...fit, basis: 'expected' }, metricUnits)).toBeNull();
  expect(sayPlatformLife(undefined, metricUnits)).toBeNull();
});
