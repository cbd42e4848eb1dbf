import { expect, it } from 'vitest';
import { placeOnTrack } from './place-on-track.ts';

const points = [
  { ms: 300, km: 2_000 },
  { ms: 100, km: 1_000 },
  { ms: 200, km: 1_400 },
];

it.each([
  [99, null],
  [100, 1_000],
  [150, 1_200],
  [200, 1_400],
  [275, 1_850],
  [300, 2_000],
  [9_999, 2_000],
])('at %d stood at %s', (ms, km) => {
  expect(placeOnTrack(points, ms)).toBe(km);
});

it('knows nothing without a point, and takes none as driving back', () => {
  expect(placeOnTrack([], 100)).toBeNull();
  expect(placeOnTrack([...points, { ms: 250, km: 1_300 }], 225)).toBe(1_400);
});
