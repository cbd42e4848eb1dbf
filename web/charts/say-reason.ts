import type { SetAsideReason } from '#server/contract/words.ts';

const reasonWords: Record<SetAsideReason, string> = {
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

/** Why a reading was set aside, in the words of the gate. */
export const sayReason = (reason: SetAsideReason): string => reasonWords[reason];
