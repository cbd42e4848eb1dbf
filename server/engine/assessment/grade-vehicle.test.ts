import { describe, expect, it } from 'vitest';
import type { RankFacts } from './assessment-model.ts';
import { gradeLimits, gradeVehicle } from './grade-vehicle.ts';

const drifting: RankFacts = {
  p: 1e-6,
  drifting: 0.9,
  stepping: 0.05,
  chancePastLimit: 0,
  chanceSoon: 0.01,
  chanceWithinHorizon: 0.05,
  suddenChance: 0.001,
  levelRpm: 60,
  baselineRpm: 20,
  missing: [],
  codes: 0,
};
const nothingSeen: RankFacts = {
  ...drifting,
  p: null,
  drifting: 0,
  stepping: 0,
  missing: [{ kind: 'no_usable' }],
};

it('runs as its note says', () => {
  expect(gradeVehicle({ ...nothingSeen, codes: 1 }, null)).toBe('book');
});

describe('with evidence', () => {
  it('holds a vehicle that is past the limit or may pass it within 1,000 km', () => {
    expect(gradeVehicle({ ...drifting, chancePastLimit: 0.35 }, 0.01)).toBe('hold');
    expect(gradeVehicle({ ...drifting, chanceSoon: 0.35 }, 0.01)).toBe('hold');
  });
  it('books one that may pass it within the horizon, its sudden failures not counted', () => {
    expect(gradeVehicle({ ...drifting, chanceWithinHorizon: 0.07 }, 0.01)).toBe('book');
    expect(gradeVehicle({ ...drifting, chanceWithinHorizon: 0.07, suddenChance: 0.02 }, 0.01)).toBe('watch');
  });
  it('watches one that rises and has far to go', () => {
    expect(gradeVehicle(drifting, 0.01)).toBe('watch');
    expect(gradeVehicle({ ...drifting, drifting: 0.1, stepping: 0.5 }, 0.01)).toBe('watch');
  });
});

describe('without evidence', () => {
  it('leaves a vehicle steady whatever its chances', () => {
    expect(gradeVehicle({ ...drifting, chanceSoon: 0.9, chanceWithinHorizon: 0.9 }, 0.05)).toBe('steady');
    expect(gradeVehicle({ ...drifting, chanceSoon: 0.9 }, null)).toBe('steady');
  });
  it('says unknown where too little was seen', () => {
    expect(gradeVehicle(nothingSeen, null)).toBe('unknown');
    const few: RankFacts = { ...nothingSeen, missing: [{ kind: 'few_stretches', have: 2, need: 6 }] };
    expect(gradeVehicle(few, null)).toBe('unknown');
  });
  it('says unknown of a vehicle that was steady and has been silent for 30 days', () => {
    const silent = (days: number) => gradeVehicle({ ...drifting, missing: [{ kind: 'quiet', days }] }, 0.5);
    expect([silent(29), silent(30)]).toEqual(['steady', 'unknown']);
  });
});

it('books at the least where a code names the clutch, and still holds where slip says so', () => {
  expect(gradeVehicle({ ...drifting, codes: 1 }, 0.9)).toBe('book');
  expect(gradeVehicle({ ...drifting, codes: 1, chanceSoon: 0.6 }, 0.01)).toBe('hold');
});

it('holds on the level alone where few stretches were seen', () => {
  const arrived: RankFacts = {
    ...drifting,
    chancePastLimit: 0.9,
    missing: [{ kind: 'few_stretches', have: 3, need: 6 }],
  };
  expect(gradeVehicle(arrived, 0.001)).toBe('hold');
});

it('does not call a vehicle steady of which nothing was heard for 30 days', () => {
  const quiet = (days: number) => ({ ...nothingSeen, missing: [{ kind: 'quiet' as const, days }] });
  expect(gradeVehicle(quiet(29), 1)).toBe('steady');
  expect(gradeVehicle(quiet(30), 1)).toBe('unknown');
});

describe('with limits of the fleet', () => {
  const within = (limits: Partial<typeof gradeLimits>) => ({ ...gradeLimits, ...limits });
  it('begins each grade where the fleet says', () => {
    const soon = { ...drifting, chanceSoon: 0.3, chanceWithinHorizon: 0.3 };
    expect(gradeVehicle(soon, 0.01, within({ holdChance: 0.3 }))).toBe('hold');
    expect(gradeVehicle(soon, 0.01, within({ holdChance: 0.31 }))).toBe('book');
    expect(gradeVehicle(soon, 0.01, within({ holdChance: 0.31, bookChance: 0.4 }))).toBe('watch');
  });
  it('asks for the evidence that the fleet asks for', () => {
    expect(gradeVehicle(drifting, 0.08, within({ q: 0.1 }))).toBe('watch');
    expect(gradeVehicle(drifting, 0.01, within({ q: 0.01 }))).toBe('steady');
  });
  it('waits as long for a silent vehicle as the fleet does', () => {
    const silent: RankFacts = { ...nothingSeen, missing: [{ kind: 'quiet', days: 20 }] };
    expect(gradeVehicle(silent, 1, within({ quietDays: 20 }))).toBe('unknown');
    expect(gradeVehicle(silent, 1, within({ quietDays: 21 }))).toBe('steady');
  });
});
