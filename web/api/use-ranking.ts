import {
  keepPreviousData,
  queryOptions,
  useInfiniteQuery,
  useQuery,
  useQueryClient,
} from '@tanstack/react-query';
import type { UncoveredHold } from '#server/contract/bookings.ts';
import type {
  Outlook,
  Ranking,
  RankingFilter,
  RankingQuery,
  RankingUnits,
} from '#server/contract/ranking.ts';
import { getJson } from './get-json.ts';
import { useWordUnits } from './use-word-units.ts';
import { writeQuery } from './write-query.ts';

/** What narrows the list, with which the outlook above it is asked too, and what orders it. */
export type RankingAsk = RankingFilter & Pick<RankingQuery, 'horizon_km' | 'sort'>;

/** The first rows are what somebody waits for; more of them come while they are looked at. */
const firstPageSize = 100;
const laterPageSize = 200;
/** More than any fleet has booked at once. */
const mostBooked = 10_000;
/** An empty list waits for its first vehicle. */
const emptyAgainMs = 5000;

export const rankingKeys = {
  all: ['ranking'] as const,
  list: (ask: RankingAsk, units: string) => ['ranking', 'list', ask, units] as const,
  outlook: (filter: RankingFilter) => ['ranking', 'outlook', filter] as const,
  units: (ask: RankingAsk) => ['ranking', 'units', ask] as const,
  holds: ['ranking', 'holds'] as const,
};

export function useRanking(ask: RankingAsk) {
  const units = useWordUnits();
  return useInfiniteQuery({
    queryKey: rankingKeys.list(ask, units),
    queryFn: ({ pageParam, signal }) =>
      getJson<Ranking>(
        '/ranking',
        { ...ask, units, limit: pageParam === 0 ? firstPageSize : laterPageSize, offset: pageParam },
        signal,
      ),
    initialPageParam: 0,
    getNextPageParam: (last, pages) => {
      const loaded = pages.reduce((sum, page) => sum + page.rows.length, 0);
      return last.rows.length > 0 && loaded < last.total ? loaded : undefined;
    },
    placeholderData: keepPreviousData,
    // Rows that change places under the reader's hand do harm: the screen offers a newer list instead.
    refetchOnWindowFocus: false,
    refetchInterval: ({ state }) => (state.data?.pages[0]?.total === 0 ? emptyAgainMs : false),
  });
}

export function useOutlook(filter: RankingFilter) {
  return useQuery({
    queryKey: rankingKeys.outlook(filter),
    queryFn: ({ signal }) => getJson<Outlook>('/ranking/outlook', filter, signal),
    placeholderData: keepPreviousData,
  });
}

const unitsOptions = (ask: RankingAsk & { limit?: number }) =>
  queryOptions({
    queryKey: rankingKeys.units(ask),
    queryFn: ({ signal }) => getJson<RankingUnits>('/ranking/units', ask, signal),
  });

/** Which vehicles the list holds, by name alone and asked when they are wanted: for a choice of all. */
export function useUnitsOnDemand(): (ask: RankingAsk) => Promise<RankingUnits> {
  const client = useQueryClient();
  return (ask) => client.fetchQuery({ ...unitsOptions(ask), staleTime: 0 });
}

/** The vehicles of the list whose unit has a text in it. */
export const useUnitsLike = (q: string) =>
  useQuery({ ...unitsOptions({ q: q.slice(0, 100) }), enabled: q !== '' });

/** The vehicles whose booking has its day ahead, or is over and was not closed. */
export const useBookedUnits = (booking: 'open' | 'past', enabled: boolean) =>
  useQuery({
    ...unitsOptions({ booking, limit: mostBooked }),
    select: ({ vehicles }) => new Set(vehicles),
    enabled,
  });

/** Vehicles on hold that no day waits for. */
export const useUncoveredHolds = (enabled: boolean) =>
  useQuery({
    queryKey: rankingKeys.holds,
    queryFn: ({ signal }) => getJson<UncoveredHold[]>('/ranking/uncovered-holds', {}, signal),
    enabled,
  });

/** The whole list as it is asked for, as a file. */
export function useRankingFileAddress(ask: RankingAsk): string {
  const units = useWordUnits();
  return writeQuery('/api/ranking.csv', { ...ask, units });
}
