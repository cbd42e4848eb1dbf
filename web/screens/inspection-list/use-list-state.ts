import { getRouteApi } from '@tanstack/react-router';
import { useCallback, useMemo } from 'react';
import type { RankingFilter } from '#server/contract/ranking.ts';
import type { RankingAsk } from '#web/api/use-ranking.ts';
import {
  chooseUnits,
  chosenOf,
  type ListSearch,
  parseListSearch,
  patchSearch,
  type SearchPatch,
} from './list-search.ts';

const route = getRouteApi('/');

/** The list's state lives in the address bar; this reads it and changes it. */
export function useListState() {
  const raw = route.useSearch();
  // The router leaves what the parser drops beside what it keeps.
  const search = useMemo(() => parseListSearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();

  const go = useCallback(
    (next: (before: ListSearch) => ListSearch, replace: boolean) =>
      void navigate({ to: '/', search: next, replace, resetScroll: false }),
    [navigate],
  );
  const change = useCallback(
    (patch: SearchPatch, how: 'step' | 'quiet' = 'step') =>
      go((before) => patchSearch(before, patch), how === 'quiet'),
    [go],
  );
  const toggleOpen = useCallback(
    (vehicle: string) =>
      go((before) => patchSearch(before, { open: before.open === vehicle ? undefined : vehicle }), true),
    [go],
  );
  /** Ticks these where `ticks`, else takes their ticks away. */
  const choose = useCallback(
    (vehicles: readonly string[], ticks: boolean) =>
      go((before) => {
        const chosen = new Set(chosenOf(before));
        for (const vehicle of vehicles)
          if (ticks) chosen.add(vehicle);
          else chosen.delete(vehicle);
        return chooseUnits(before, [...chosen], before.compare !== undefined);
      }, true),
    [go],
  );
  const clearChoice = useCallback(() => go((before) => chooseUnits(before, [], false), true), [go]);
  const compare = useCallback(
    (compares: boolean) => go((before) => chooseUnits(before, chosenOf(before), compares), true),
    [go],
  );

  const filter = useMemo<RankingFilter>(
    () => ({
      depot: search.depot,
      platform: search.platform,
      lacks: search.lacks,
      grade: search.grade,
      q: search.q,
      booking: search.booking,
      changed: search.changed,
    }),
    [search.depot, search.platform, search.lacks, search.grade, search.q, search.booking, search.changed],
  );
  const ask = useMemo<RankingAsk>(
    () => ({ ...filter, horizon_km: search.horizon_km, sort: search.sort }),
    [filter, search.horizon_km, search.sort],
  );
  const { compare: compared, chosen: kept } = search;
  const chosen = useMemo(
    () =>
      chosenOf({
        ...(compared === undefined ? {} : { compare: compared }),
        ...(kept === undefined ? {} : { chosen: kept }),
      }),
    [compared, kept],
  );
  const chosenSet = useMemo(() => new Set(chosen), [chosen]);
  return {
    search,
    ask,
    filter,
    chosen,
    chosenSet,
    isComparing: compared !== undefined,
    change,
    toggleOpen,
    choose,
    clearChoice,
    compare,
  };
}

export type ListState = ReturnType<typeof useListState>;
