import type { SetAsideReason } from './words.ts';

/** Why a reading was set aside, in the words of the gate. */
export const setAsideWords: Record<SetAsideReason, string> = {
  odometer: 'odometer in doubt',
  not_commanded: 'lockup not commanded',
  shifting: 'shifting',
  overrun: 'overrun',
  low_load: 'load too low',
  low_speed: 'speed too low',
  cold: 'fluid too cold',
  hot: 'fluid too hot',
  duty_moving: 'command still moving',
};
