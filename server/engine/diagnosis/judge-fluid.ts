import type { FluidResult, Judged, LookAt } from './diagnosis-model.ts';

export interface FluidInput {
  level: 'low' | 'right' | 'high' | 'not_checked';
  colour: 'red' | 'amber' | 'brown' | 'black' | 'milky';
  smell: 'usual' | 'burnt';
}

/**
 * Judgement of the fluid.
 *
 * In this order: milky is coolant in the fluid; a level that is low or high comes before burnt fluid, because a road test
 * says nothing until it is corrected; black, or burnt by smell, is burnt.
 *
 * @param input.level  on the dipstick or at the overflow, hot
 * @param input.colour on white paper
 * @param input.smell  of the fluid
 * @returns the judgement; `burnt` and `levelWrong` tell what else was seen
 * Source: common practice, no source. Edges: right by colour and smell while the level was not checked is unclear; brown
 * without a burnt smell is aged and passes. Errors: none.
 * @example judgeFluid({ level: 'low', colour: 'red', smell: 'usual' }).result // 'level_low'
 */
export function judgeFluid(
  input: FluidInput,
): Judged<FluidResult, { burnt: boolean; levelWrong: boolean; levelChecked: boolean }> {
  const burnt = input.colour === 'black' || input.smell === 'burnt';
  const levelWrong = input.level === 'low' || input.level === 'high';
  const levelChecked = input.level !== 'not_checked';
  const figures = { burnt, levelWrong, levelChecked };
  const failed = (result: FluidResult, lookNext: LookAt[]) => ({
    result,
    verdict: 'failed' as const,
    lookNext,
    figures,
  });
  if (input.colour === 'milky') return failed('coolant_in_fluid', ['do_not_drive', 'coolant_leak']);
  const also: LookAt[] = burnt ? ['burnt_fluid'] : [];
  if (input.level === 'low') return failed('level_low', ['correct_level', 'leak', ...also]);
  if (input.level === 'high') return failed('level_high', ['correct_level', ...also]);
  const unchecked: LookAt[] = levelChecked ? [] : ['check_level'];
  if (burnt) return failed('fluid_burnt', ['burnt_fluid', ...unchecked]);
  const aged: LookAt[] = input.colour === 'brown' ? ['old_fluid'] : [];
  return {
    result: 'fluid_right',
    verdict: levelChecked ? 'passed' : 'unclear',
    lookNext: [...unchecked, ...aged],
    figures,
  };
}
