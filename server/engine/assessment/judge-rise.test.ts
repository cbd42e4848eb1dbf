import { expect, it } from 'vitest';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { makeCaseSummary } from '#tests/helpers/make-case-summary.ts';
import { makePoint } from '#tests/helpers/make-stretch.ts';
import type { Series } from './build-series.ts';
import { judgeRise } from './judge-rise.ts';

const seriesOf = (slips: readonly number[]): Series => ({
  band: -1,
  points: slips.map((slip, i) => makePoint(i, slip)),
  effects: unknownBand(-1).effects,
  rises: slips.map(() => 0),
});
const risen = seriesOf(Array.from({ length: 50 }, (_, i) => 20 + Math.max(0, i - 20) * 2));
const flatSeries = seriesOf(Array.from({ length: 50 }, (_, i) => 15 + (i % 2)));
const drifts = { summary: makeCaseSummary(), independence: 1 };
const flatFit = {
  summary: makeCaseSummary({ drifting: 0.05, stepping: 0.01, level: { mean: 15, sd: 1 }, onset: null }),
  independence: 1,
};

it('runs as its note says', () => {
  expect(judgeRise([flatSeries], flatFit, unknownPlatform)).toMatchObject({ risen: false, onset: null });
});

it('asks for evidence and for a posterior that moves', () => {
  expect(judgeRise([risen], drifts, unknownPlatform)).toMatchObject({
    risen: true,
    onset: drifts.summary.onset,
    arrivedSlipping: false,
  });
  const still = { ...drifts, summary: makeCaseSummary({ drifting: 0.3, stepping: 0.1 }) };
  expect(judgeRise([risen], still, unknownPlatform)).toMatchObject({ risen: false, onset: null });
});

it('tells one that slipped before its first point by its level', () => {
  const onset = { estimate: 90_000, low: 80_000, high: 99_000 };
  const high = { ...drifts, summary: makeCaseSummary({ onset, level: { mean: 180, sd: 2 } }) };
  expect(judgeRise([seriesOf([180, 181, 179])], high, unknownPlatform).arrivedSlipping).toBe(true);
});

it('says no p of few points unless their level speaks', () => {
  expect(judgeRise([seriesOf([15, 16, 15, 14, 15])], flatFit, unknownPlatform).p).toBeNull();
  expect(judgeRise([seriesOf([15, 16, 15, 14, 15, 16])], flatFit, unknownPlatform).p).not.toBeNull();
  const high = { ...flatFit, summary: makeCaseSummary({ level: { mean: 180, sd: 2 } }) };
  expect(judgeRise([seriesOf([180, 181, 179])], high, unknownPlatform).p).toBeLessThan(0.01);
});
