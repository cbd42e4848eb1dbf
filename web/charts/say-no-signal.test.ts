import { expect, it } from 'vitest';
import { vehicleCases } from '#tests/browser/fixtures/vehicle-cases.ts';
import { makeSeries } from '#tests/browser/fixtures/vehicle-series.ts';
import { sayNoSignal } from './say-no-signal.ts';

const bare = makeSeries(vehicleCases.bare!);
const full = makeSeries(vehicleCases.drifting!);

it('names the signal that the feed lacks', () => {
  expect(sayNoSignal(bare, 'fluid_c')).toBe('No fluid temperature in the feed.');
  expect(sayNoSignal(bare, 'load_pct')).toBe('No load in the feed.');
});

it('blames no feed for a converter that has no usable readings yet', () => {
  const words = 'No usable readings of this converter yet.';
  expect(sayNoSignal(full, 'fluid_c')).toBe(words);
  expect(sayNoSignal({ series: [], readings: { usable: 0, set_aside: 9 } }, 'load_pct')).toBe(words);
});
