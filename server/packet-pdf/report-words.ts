import type { CoolerRecord } from '#server/contract/repair.ts';

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
