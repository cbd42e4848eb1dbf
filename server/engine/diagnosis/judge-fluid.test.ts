import { expect, it } from 'vitest';
import { judgeFluid } from './judge-fluid.ts';

it('runs as its note says', () => {
  expect(judgeFluid({ level: 'low', colour: 'red', smell: 'usual' }).result).toBe('level_low');
});

it.each([
  ['right', 'red', 'usual', 'fluid_right', 'passed'],
  ['right', 'amber', 'usual', 'fluid_right', 'passed'],
  ['right', 'brown', 'usual', 'fluid_right', 'passed'],
  ['not_checked', 'red', 'usual', 'fluid_right', 'unclear'],
  ['low', 'red', 'usual', 'level_low', 'failed'],
  ['high', 'red', 'usual', 'level_high', 'failed'],
  ['right', 'red', 'burnt', 'fluid_burnt', 'failed'],
  ['right', 'black', 'usual', 'fluid_burnt', 'failed'],
  ['not_checked', 'black', 'burnt', 'fluid_burnt', 'failed'],
  ['right', 'milky', 'usual', 'coolant_in_fluid', 'failed'],
] as const)('level %s, %s, smell %s is %s: %s', (level, colour, smell, result, verdict) => {
  expect(judgeFluid({ level, colour, smell })).toMatchObject({ result, verdict });
});

it('lets coolant come before all, and the level before burnt fluid, which stays told', () => {
  expect(judgeFluid({ level: 'low', colour: 'milky', smell: 'burnt' }).result).toBe('coolant_in_fluid');
  const low = judgeFluid({ level: 'low', colour: 'black', smell: 'usual' });
  expect(low).toMatchObject({ result: 'level_low', figures: { burnt: true } });
  expect(low.lookNext).toContain('burnt_fluid');
});

it('asks for the level where nobody checked it', () => {
  expect(judgeFluid({ level: 'not_checked', colour: 'red', smell: 'usual' }).lookNext).toEqual([
    'check_level',
  ]);
});
