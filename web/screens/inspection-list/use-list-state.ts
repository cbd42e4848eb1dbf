import { getRouteApi } from '@tanstack/react-router';
import { useCallback, useMemo } from 'react';
import type { RankingAsk, RankingFilter } from '#web/api/use-ranking.ts';
import {
  joinCompared,
  type ListSearch,
  parseListSearch,
  patchSearch,
  type SearchPatch,
  splitCompared,
} from './list-search.ts';

const route = getRouteApi('/');

/** The list's state lives in the address bar; this reads it and changes it. */
export function useListState() {
  const raw = route.useSearch();
  // The router leaves what the parser drops beside what it keeps.
  const search = useMemo(() => parseListSearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();

  const change = useCallback(
    (patch: SearchPatch, how: 'step' | 'quiet' = 'step') =>
      void navigate({
        to: '/',
        search: (before: ListSearch) => patchSearch(before, patch),
        replace: how === 'quiet',
        resetScroll: false,
      }),
    [navigate],
  );

  const toggleOpen = useCallback(
    (vehicle: string) =>
      void navigate({
        to: '/',
        search: (before: ListSearch) =>
          patchSearch(before, { open: before.open === vehicle ? undefined : vehicle }),
        replace: true,
        resetScroll: false,
      }),
    [navigate],
  );

  const toggleCompared = useCallback(
    (vehicle: string) =>
      void navigate({
        to: '/',
        search: (before: ListSearch) => {
          const chosen = splitCompared(before.compare);
          const next = chosen.includes(vehicle)
            ? chosen.filter((one) => one !== vehicle)
            : [...chosen, vehicle];
          return patchSearch(before, { compare: joinCompared(next) });
        },
        replace: true,
        resetScroll: false,
      }),
    [navigate],
  );

  const filter = useMemo<RankingFilter>(
    () => ({
      depot: search.depot,
      platform: search.platform,
      grade: search.grade,
      q: search.q,
    }),
    [search.depot, search.platform, search.grade, search.q],
  );
  const ask = useMemo<RankingAsk>(
    () => ({ ...filter, horizon_km: search.horizon_km, sort: search.sort }),
    [filter, search.horizon_km, search.sort],
  );
  const compared = useMemo(() => splitCompared(search.compare), [search.compare]);
  return { search, ask, filter, compared, change, toggleOpen, toggleCompared };
}

export type ListState = ReturnType<typeof useListState>;
