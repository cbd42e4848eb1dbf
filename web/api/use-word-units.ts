import type { RankingQuery } from '#server/contract/ranking.ts';
import { distanceChoice } from '#web/ui/use-units.ts';

/** Sentences come worded from the server, so it is told which distances the reader takes. */
export const useWordUnits = (): NonNullable<RankingQuery['units']> =>
  distanceChoice.use() === 'mi' ? 'imperial' : 'metric';
