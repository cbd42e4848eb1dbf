import type { WearCase } from './wear-model.ts';

/** Cases of one clutch as they are found, not yet weighed against each other. */
export interface FoundCases {
  cases: (WearCase & { log: number })[];
  /** the largest logarithm found so far */
  best: number;
}
