import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { BayPlan } from '#server/contract/bookings.ts';
import { getJson } from './get-json.ts';
import { writeQuery } from './write-query.ts';

/** Which days of which depots are shown; all depots where none is named. */
export interface BayPlanAsk {
  depot: string | undefined;
  from: string;
  days: number;
}

export const bayPlanKeys = {
  all: ['bay-plan'] as const,
  shown: (ask: BayPlanAsk) => ['bay-plan', ask] as const,
};

/** Others book too. */
const askEveryMs = 60_000;

export const useBayPlan = (ask: BayPlanAsk) =>
  useQuery({
    queryKey: bayPlanKeys.shown(ask),
    queryFn: ({ signal }) => getJson<BayPlan>('/bay-plan', { ...ask }, signal),
    placeholderData: keepPreviousData,
    staleTime: 10_000,
    refetchInterval: askEveryMs,
  });

/** Bookings of these days as a file. */
export const bookingsFileAddress = (ask: { depot: string | undefined; from: string; to: string }): string =>
  writeQuery('/api/bookings.csv', { ...ask });
