import type { AsideReason } from '#server/engine/road-trace/find-steady.ts';

const words: Record<AsideReason | 'gap', string> = {
  not_commanded: 'lockup not commanded',
  shifting: 'shifting',
  overrun: 'overrun',
  low_load: 'load too low',
  low_speed: 'speed too low',
  cold: 'fluid too cold',
  hot: 'fluid too hot',
  duty_moving: 'command still moving',
  short: 'held for less than 5 s',
  gap: 'nothing recorded',
};

/** Why a span of a road test was set aside. */
export const asideWords = (reason: AsideReason | 'gap'): string => words[reason];
