import { expect, it } from 'vitest';
import { chooseCovariates } from './choose-covariates.ts';
import type { GroupedLife } from './group-lives.ts';

const used = { fluid_c: 80, hot_pct: 1, load_pct: 50, partial_lockup_pct: 40, heat_mj_per_1000km: 20 };
const life = (event: boolean, lacks: Partial<GroupedLife['used']> = {}): GroupedLife => ({
  life: {
    vehicle: 1,
    unit: 'B-1',
    platform: null,
    depot: null,
    life: 1,
    source: 'original',
    supplier: null,
    entry: 0,
    exit: 1_000,
    event,
    count: 1,
  },
  used: { ...used, ...lacks },
  group: undefined,
});
const times = (n: number, one: GroupedLife) => Array.from({ length: n }, () => one);

it('takes one exposure for each five failures, those first that tell different things', () => {
  const names = (failures: number) =>
    chooseCovariates([...times(failures, life(true)), ...times(30, life(false))]).covariates;
  expect([0, 4, 5, 9, 10, 14, 24, 25, 60].map((n) => names(n).length)).toEqual([0, 0, 1, 1, 2, 2, 4, 5, 5]);
  expect(names(14)).toEqual(['fluid_c', 'load_pct']);
  expect(names(25)).toEqual(['fluid_c', 'hot_pct', 'load_pct', 'partial_lockup_pct', 'heat_mj_per_1000km']);
});

it('leaves out what fewer than 80 % of the lives have, and says both', () => {
  const { covariates, notes } = chooseCovariates([
    ...times(10, life(true)),
    ...times(5, life(false)),
    ...times(5, life(false, { load_pct: null })),
  ]);
  expect(covariates).toEqual(['fluid_c', 'heat_mj_per_1000km']);
  expect(notes.slice(0, 2)).toEqual([
    'The regression goes without load: 15 of 20 lives have it, and 80 % must.',
    'The regression goes without time in partial lockup and time with hot fluid: 10 failures carry 2 exposures; each takes 5.',
  ]);
});

it('has nothing to say without lives', () => {
  expect(chooseCovariates([])).toEqual({ covariates: [], notes: [] });
});
