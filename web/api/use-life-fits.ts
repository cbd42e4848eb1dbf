import { useQuery } from '@tanstack/react-query';
import type { LifeFits } from '#server/contract/lives.ts';
import { getJson } from './get-json.ts';

/** Lives of platforms are fitted once a day. */
const staleTime = 10 * 60_000;

export const useLifeFits = () =>
  useQuery({
    queryKey: ['life-fits'],
    queryFn: ({ signal }) => getJson<LifeFits>('/analysis/life-fits', {}, signal),
    staleTime,
  });
