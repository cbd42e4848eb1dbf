import { setAsideWords } from '#server/contract/set-aside-words.ts';
import type { AsideReason } from '#server/engine/road-trace/find-steady.ts';

const words: Record<AsideReason | 'gap', string> = {
  ...setAsideWords,
  short: 'held for less than 5 s',
  gap: 'nothing recorded',
};

/** Why a span of a road test was set aside. */
export const asideWords = (reason: AsideReason | 'gap'): string => words[reason];
