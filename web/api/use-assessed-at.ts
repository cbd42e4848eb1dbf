import { useQuery } from '@tanstack/react-query';
import { useState } from 'react';
import type { Ranking } from '#server/contract/ranking.ts';
import { getJson } from './get-json.ts';

const askEveryMs = 60_000;

/** Whether the fleet was assessed again since `loadedAt`, the moment in which the shown answer came. */
export function useNewerAssessment(loadedAt: number): boolean {
  const { data: asOf } = useQuery({
    queryKey: ['assessed-at'],
    queryFn: async ({ signal }) => (await getJson<Ranking>('/ranking', { limit: 1 }, signal)).as_of,
    refetchInterval: askEveryMs,
  });
  const [shown, setShown] = useState({ loadedAt, asOf });
  const isFirstAnswer = shown.asOf === undefined && asOf !== undefined;
  if (shown.loadedAt !== loadedAt || isFirstAnswer) setShown({ loadedAt, asOf });
  return asOf !== undefined && shown.asOf !== undefined && shown.asOf !== asOf;
}
