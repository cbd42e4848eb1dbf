import { expect, it } from 'vitest';
import { chanceWithin } from '#server/engine/wear/chance-within.ts';
import { recalibrateChance } from '#server/engine/wear/recalibrate-chance.ts';
import { makeFlatOutlook, makeOutlook } from '#tests/helpers/make-wear-case.ts';
import { weighChances } from './weigh-chances.ts';

it('runs as its note says', () => {
  expect(
    weighChances({ outlooks: [makeFlatOutlook()], youth: 0 }, 150, 5_000, [], () => 0).chanceWithinHorizon,
  ).toBe(0);
});

it('joins wear, set right, with failures that give no notice, and leaves these out of the chance soon', () => {
  const outlooks = [makeOutlook({ weight: 0.6 }), makeFlatOutlook({ weight: 0.4 })];
  const worn = (km: number) => recalibrateChance(chanceWithin(outlooks, 150)(km), 0, 0.5);
  const found = weighChances({ outlooks, youth: 0.5 }, 150, 5_000, [2_000, 8_000], () => 0.25);
  expect(found.chancePastLimit).toBe(0);
  expect(found.chanceSoon).toBe(worn(1_000));
  expect(found.chanceWithinHorizon).toBeCloseTo(1 - 0.75 * (1 - worn(5_000)), 12);
  expect(found.chances.map(([km]) => km)).toEqual([2_000, 8_000]);
  expect(found.chances[1]?.[1]).toBeCloseTo(1 - 0.75 * (1 - worn(8_000)), 12);
});

it('counts what is past the limit by its weight', () => {
  const outlooks = [makeOutlook({ weight: 0.3, levelRpm: 150 }), makeFlatOutlook({ weight: 0.7 })];
  expect(weighChances({ outlooks, youth: 0 }, 150, 5_000, [], () => 0).chancePastLimit).toBe(0.3);
});
