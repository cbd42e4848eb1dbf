import { useQuery } from '@tanstack/react-query';
import type { ExplainQuery, Explanation } from '#server/contract/ranking.ts';
import { getJson } from './get-json.ts';
import { rankingKeys } from './use-ranking.ts';
import { useWordUnits } from './use-word-units.ts';

/** Why one vehicle stands above another; against the next one down the list where none is named. */
export function useExplanation(ask: Omit<ExplainQuery, 'units'>) {
  const units = useWordUnits();
  return useQuery({
    queryKey: [...rankingKeys.all, 'explain', ask, units],
    queryFn: ({ signal }) => getJson<Explanation>('/ranking/explain', { ...ask, units }, signal),
  });
}
