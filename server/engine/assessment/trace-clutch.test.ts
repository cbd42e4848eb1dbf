import { expect, it } from 'vitest';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { platformSettings as settings } from '#tests/helpers/engine-settings.ts';
import { makeStretch } from '#tests/helpers/make-stretch.ts';
import { traceClutch } from './trace-clutch.ts';

const nothing = { stretches: [], life: { number: 1, fittedKm: null } };
/** Climbs by 5 rpm a stretch to 110 rpm and falls back to 15 at the twentieth; at one command too. */
const stretches = [-1, 2].flatMap((band) =>
  Array.from({ length: 40 }, (_, i) => makeStretch(i, i < 20 ? 15 + 5 * i : 15, { band })),
);

it('runs as its note says', () => {
  expect(traceClutch({ ...nothing, stretches: [] }, settings, unknownPlatform).ofLife).toEqual([]);
});

it('begins the clutch anew at a fall, in every band, and tells the fall by the four stretches beside it', () => {
  const { ofLife, ofClutch, fall } = traceClutch({ ...nothing, stretches }, settings, unknownPlatform);
  expect(ofLife).toHaveLength(40);
  expect(ofClutch.map(({ points }) => points.length)).toEqual([20, 0, 0, 20, 0]);
  // (95 + 100 + 105 + 110) / 4
  expect(fall).toMatchObject({ fromRpm: 102.5, toRpm: 15, atKm: 110_250 });
});

it('leaves other lives out of the clutch, and in the series', () => {
  const rows = stretches.map((row, i) => (i % 40 < 20 ? row : { ...row, life: 2 }));
  const life = { number: 2, fittedKm: null };
  const { series, ofClutch, fall } = traceClutch({ stretches: rows, life }, settings, unknownPlatform);
  expect(series[0].points).toHaveLength(40);
  expect(ofClutch.map(({ points }) => points.length)).toEqual([20, 0, 0, 20, 0]);
  expect(fall).toBeNull();
});
