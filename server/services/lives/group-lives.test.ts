import { expect, it } from 'vitest';
import { groupLives } from './group-lives.ts';
import type { FleetLife } from './observe-lives.ts';

const life = (depot: string | null): FleetLife => ({
  vehicle: 1,
  unit: 'B-1',
  platform: 'bus',
  depot,
  life: 1,
  source: 'original',
  supplier: null,
  entry: 0,
  exit: 1,
  event: true,
  count: 1,
});
const depots = (n: number) => Array.from({ length: n }, (_, i) => life(`depot ${i}`));

it('puts groups in the order of their names, those without one last', () => {
  const { lives } = groupLives([life(null), life('south'), life('north')], [], 'depot');
  expect(lives.map(({ group }) => group)).toEqual(['north', 'south', 'no depot']);
});

it('refuses more groups than can be compared, and says what to do', () => {
  expect(groupLives(depots(50), [], 'depot').lives).toHaveLength(50);
  expect(() => groupLives(depots(51), [], 'depot')).toThrow(
    /51 groups by depot, and at most 50 can be compared\. Choose some platforms/,
  );
  expect(groupLives(depots(51), [], 'platform').lives).toHaveLength(51);
});
