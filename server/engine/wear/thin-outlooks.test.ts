import fc from 'fast-check';
import { expect, it } from 'vitest';
import { weightedQuantiles } from '#server/engine/smooth/weighted-quantiles.ts';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import type { Outlook } from './outlook.ts';
import { thinOutlooks } from './thin-outlooks.ts';
import { wayLeft } from './way-left.ts';

const many = Array.from({ length: 300 }, (_, i) =>
  makeOutlook({ goneKm: (i * 7_919) % 10_000, weight: 1 / 300 }),
);

it('runs as its note says', () => {
  const outlooks = many;
  expect(thinOutlooks(outlooks, 150, 120).length).toBe(120);
});

it('leaves few as they came', () => {
  expect(thinOutlooks(many, 150, 300)).toEqual(many);
  expect(thinOutlooks([], 150, 10)).toEqual([]);
});

// By hand: ways left 1,000 to 6,000 km with weights 4, 12, 5, 8, 8, 4 of 41, running sums 4, 16, 21, 29, 37, 41; thirds have
// their middles at 6.83, 20.5 and 34.17.
it('draws where the running weight passes the middle of each share', () => {
  const ways = [4_000, 1_000, 6_000, 2_000, 5_000, 3_000];
  const weights = [8, 4, 4, 12, 8, 5];
  const outlooks = ways.map((way, i) => makeOutlook({ goneKm: 10_000 - way, weight: weights[i] ?? 0 }));
  const drawn = thinOutlooks(outlooks, 150, 3);
  expect(drawn.map((one) => wayLeft(one, 150))).toEqual([2_000, 3_000, 5_000]);
  for (const one of drawn) expect(one.weight).toBeCloseTo(41 / 3, 12);
});

const outlook: fc.Arbitrary<Outlook> = fc
  .record({
    goneKm: fc.integer({ min: -20_000, max: 9_999 }),
    weight: fc.integer({ min: 1, max: 1_000 }),
    grows: fc.integer({ min: 0, max: 3 }),
  })
  .map(({ goneKm, weight, grows }) =>
    grows > 0 ? makeOutlook({ goneKm, weight }) : makeFlatOutlook({ weight }),
  );

// The i-th of n stands at (i + 1/2) / n of the weight and answers for i / n to (i + 1) / n: half of 1 / n off at the most.
it('keeps every quantile of the way left to half of one share, and the whole weight', () => {
  const quantile = (outlooks: readonly Outlook[], p: number) =>
    weightedQuantiles(
      outlooks.map((one) => wayLeft(one, 150)),
      outlooks.map((one) => one.weight),
      [p],
    )[0] ?? Number.NaN;
  fc.assert(
    fc.property(fc.array(outlook, { minLength: 30, maxLength: 80 }), (outlooks) => {
      const thin = thinOutlooks(outlooks, 150, 20);
      expect(thin).toHaveLength(20);
      const total = (list: readonly Outlook[]) => list.reduce((sum, one) => sum + one.weight, 0);
      expect(total(thin) / total(outlooks)).toBeCloseTo(1, 9);
      for (const p of [0.03, 0.1, 0.26, 0.5, 0.74, 0.9, 0.97]) {
        expect(quantile(thin, p)).toBeGreaterThanOrEqual(quantile(outlooks, p - 0.0251));
        expect(quantile(thin, p)).toBeLessThanOrEqual(quantile(outlooks, p + 0.0251));
      }
    }),
    { seed: 20_251_006 },
  );
});

it('spreads its draws over the levels of those that never end', () => {
  const flats = Array.from({ length: 100 }, (_, i) =>
    makeFlatOutlook({ levelRpm: (i * 37) % 100, weight: 0.01 }),
  );
  expect(thinOutlooks(flats, 150, 4).map((one) => one.levelRpm)).toEqual([12, 37, 62, 87]);
});
