import { describe, expect, it } from 'vitest';
import { judgeTypedRoadTest, type RoadTestRules, type TypedRoadTest } from './judge-typed-road-test.ts';

const test: TypedRoadTest = { dutyPct: 78, slipRpm: 540, seconds: 10, falls: false, asMeasured: false };
const unknown: RoadTestRules = { limitRpm: 150, lowestDutyPct: 40, healthy: [] };
const known: RoadTestRules = {
  ...unknown,
  healthy: [
    { dutyPct: 60, lowRpm: 20, usualRpm: 40, highRpm: 60 },
    { dutyPct: 80, lowRpm: 5, usualRpm: 12, highRpm: 20 },
  ],
};
const judge = (some: Partial<TypedRoadTest>, rules: RoadTestRules) => {
  const judged = judgeTypedRoadTest({ ...test, ...some }, rules);
  if ('asks' in judged) throw new Error(`asked about ${judged.asks[0]?.kind}`);
  return judged;
};

it('runs as its note says', () => {
  expect(judge({}, unknown).result).toBe('slips');
});

describe('where the healthy range is known', () => {
  it.each([
    ['over the limit, held, not falling', {}, 'slips', 'failed'],
    ['at exactly 70 % for exactly 5 s', { dutyPct: 70, seconds: 5 }, 'slips', 'failed'],
    ['over the limit, but falling', { falls: true }, 'slip_raised', 'unclear'],
    ['over the limit below 70 %', { dutyPct: 60 }, 'slip_raised', 'failed'],
    ['at the limit', { slipRpm: 150 }, 'slip_raised', 'failed'],
    // straight between 60 and 80 %: 40 rpm at 70 %
    ['at the healthy upper end between two duties', { dutyPct: 70, slipRpm: 40 }, 'holds', 'passed'],
    ['just over it', { dutyPct: 70, slipRpm: 41 }, 'slip_raised', 'failed'],
    ['as low as can be', { slipRpm: 0 }, 'holds', 'passed'],
    ['healthy below 70 %', { dutyPct: 60, slipRpm: 50 }, 'holds', 'passed'],
    ['held too short', { seconds: 4 }, 'too_little_steady', 'unclear'],
    ['below the lowest band edge', { dutyPct: 39 }, 'too_little_steady', 'unclear'],
  ] as const)('slip %s is judged', (_, some, result, verdict) => {
    expect(judge(some, known)).toMatchObject({ result, verdict });
  });

  it('holds no further than the limit', () => {
    const wide = { ...known, healthy: [{ dutyPct: 78, lowRpm: 0, usualRpm: 90, highRpm: 300 }] };
    expect(judge({ slipRpm: 150 }, wide).result).toBe('holds');
    expect(judge({ slipRpm: 151 }, wide).result).toBe('slips');
  });
});

describe('where it is not', () => {
  it.each([
    ['within half the limit', { slipRpm: 75 }, 'holds', 'passed'],
    ['within the limit', { slipRpm: 150 }, 'holds', 'unclear'],
    ['over the limit, but falling', { falls: true }, 'slip_raised', 'unclear'],
    ['below 70 %', { dutyPct: 69 }, 'too_little_steady', 'unclear'],
  ] as const)('slip %s is judged by the limit alone', (_, some, result, verdict) => {
    expect(judge(some, unknown)).toMatchObject({ result, verdict });
  });
});

it('asks about slip below 0, which is overrun once it was measured so', () => {
  expect(judgeTypedRoadTest({ ...test, slipRpm: -540 }, known)).toEqual({
    asks: [{ kind: 'negative_slip', field: 'slipRpm', suggestion: { slipRpm: 540 } }],
  });
  expect(judge({ slipRpm: -540, asMeasured: true }, known)).toMatchObject({
    result: 'too_little_steady',
    figures: { tooLittle: 'overrun' },
  });
});
