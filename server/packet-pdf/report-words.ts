import type { CoolerRecord } from '#server/contract/repair.ts';
import type { CoreState } from '#server/contract/words.ts';

export const coreWords: Record<CoreState, string> = {
  none: 'no deposit on it',
  to_return: 'to be returned',
  returned: 'returned',
  kept: 'kept here',
};

export const coolerWords: Record<CoolerRecord['done'], string> = {
  replaced: 'replaced',
  flushed: 'flushed',
  not_done: 'not done',
};

export const methodWords: Record<NonNullable<CoolerRecord['method']>, string> = {
  pumped_through_filter: 'pumped through a catch filter',
  compressed_air: 'compressed air alone, which does not count',
  spray_can: 'spray can, which does not count',
  other: 'another way',
};
