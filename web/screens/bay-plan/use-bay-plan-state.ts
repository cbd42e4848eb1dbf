import { getRouteApi } from '@tanstack/react-router';
import { useCallback, useMemo } from 'react';
import { useTodayAt } from '#web/api/use-own-depots.ts';
import { findMonday } from '#web/format/days.ts';
import {
  type BayPlanPatch,
  type BayPlanSearch,
  parseBayPlanSearch,
  patchBayPlanSearch,
  usualDays,
} from './plan-search.ts';

const route = getRouteApi('/bay-plan');

/** The state of the bay plan lives in the address bar; this reads it and changes it. */
export function useBayPlanState() {
  const raw = route.useSearch();
  // The router leaves what the parser drops beside what it keeps.
  const search = useMemo(() => parseBayPlanSearch({ ...raw }), [raw]);
  const navigate = route.useNavigate();
  const change = useCallback(
    (patch: BayPlanPatch | ((before: BayPlanSearch) => BayPlanPatch), how: 'step' | 'quiet' = 'quiet') =>
      void navigate({
        to: '/bay-plan',
        search: (before: BayPlanSearch) =>
          patchBayPlanSearch(before, typeof patch === 'function' ? patch(before) : patch),
        replace: how === 'quiet',
        resetScroll: false,
      }),
    [navigate],
  );
  const today = useTodayAt(search.depot);
  const from = search.from ?? findMonday(today);
  const days = search.days ?? usualDays;
  const ask = useMemo(() => ({ depot: search.depot, from, days }), [search.depot, from, days]);
  return { search, ask, change };
}
export type BayPlanState = ReturnType<typeof useBayPlanState>;
