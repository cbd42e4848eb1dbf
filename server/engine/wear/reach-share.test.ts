import fc from 'fast-check';
import { expect, it } from 'vitest';
import { reachShare } from './reach-share.ts';
import { shareRisen } from './share-risen.ts';
import type { Growth } from './wear-model.ts';

it('runs as its note says', () => {
  expect(reachShare({ law: 'power', value: 2 }, 0.25, 10_000)).toBe(5_000);
});

// By hand: with an e-folding length of 10,000 / ln 9 km, a quarter of the rise is (9^x - 1) / 8 at x = 1/2.
it('finds the place on an exponential', () => {
  const feeding = { law: 'feedback', value: 10_000 / Math.log(9) } as const;
  expect(reachShare(feeding, 0.25, 10_000)).toBeCloseTo(5_000, 8);
});

/** A growth with its span: feedback of one to seven foldings, as the fit has them. */
const growthAndSpan: fc.Arbitrary<{ growth: Growth; spanKm: number }> = fc
  .record({ spanKm: fc.double({ min: 1_200, max: 150_000, noNaN: true }), isFeedback: fc.boolean() })
  .chain(({ spanKm, isFeedback }) =>
    fc.double({ min: 1, max: isFeedback ? 7 : 6, noNaN: true }).map((x) => ({
      spanKm,
      growth: isFeedback ? { law: 'feedback', value: spanKm / x } : { law: 'power', value: x },
    })),
  );

it('is the inverse of the share risen, from the onset to beyond the limit', () => {
  fc.assert(
    fc.property(growthAndSpan, fc.double({ min: 1e-6, max: 3, noNaN: true }), ({ growth, spanKm }, share) => {
      const km = reachShare(growth, share, spanKm);
      expect(Math.abs(shareRisen(growth, km, spanKm) / share - 1)).toBeLessThan(1e-9);
    }),
    { seed: 20_251_006 },
  );
});

it('gives the kilometres back from their share', () => {
  fc.assert(
    fc.property(growthAndSpan, fc.double({ min: 0.01, max: 1.5, noNaN: true }), ({ growth, spanKm }, x) => {
      const km = x * spanKm;
      expect(Math.abs(reachShare(growth, shareRisen(growth, km, spanKm), spanKm) / km - 1)).toBeLessThan(
        1e-9,
      );
    }),
    { seed: 20_251_006 },
  );
});

it('begins at the onset and ends at the span', () => {
  for (const growth of [
    { law: 'power', value: 3 },
    { law: 'feedback', value: 4_000 },
  ] as const) {
    expect(reachShare(growth, 0, 10_000)).toBe(0);
    expect(reachShare(growth, 1, 10_000)).toBeCloseTo(10_000, 8);
  }
});
