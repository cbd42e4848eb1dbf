import { useQuery } from '@tanstack/react-query';
import type { Ranking } from '#server/contract/ranking.ts';
import { getJson } from './get-json.ts';
import { rankingKeys } from './use-ranking.ts';

const mostOffered = 200;

/** The top of the list without what has a booking: what somebody who books by hand probably means. */
export const useUnbooked = () =>
  useQuery({
    queryKey: [...rankingKeys.all, 'unbooked'],
    queryFn: ({ signal }) => getJson<Ranking>('/ranking', { booking: 'none', limit: mostOffered }, signal),
  });
