import { useRouter } from '@tanstack/react-router';
import { useMemo } from 'react';
import type { Item } from './plan-items.ts';
import { type BayPlanPatch, type BayPlanSearch, patchBayPlanSearch } from './plan-search.ts';

/**
 * Addresses of what lies in the grid. Its cards are plain links, some hundreds of them, followed by one listener: a link
 * of the router each would be drawn again with every change of the address.
 */
export function useGridLinks({ depot, from, days }: BayPlanSearch) {
  const router = useRouter();
  return useMemo(() => {
    const base = patchBayPlanSearch({}, { depot, from, days });
    const hrefOf = (patch: BayPlanPatch): string =>
      router.buildLocation({ to: '/bay-plan', search: patchBayPlanSearch(base, patch) }).href;
    return {
      toItem: (item: Item): string => hrefOf(openItem(item)),
      toDay: (ofDepot: string, day: string): string => hrefOf({ view: 'day', depot: ofDepot, day }),
    };
  }, [router, depot, from, days]);
}
export type GridLinks = ReturnType<typeof useGridLinks>;

/** What stands in the address where this is open beside the grid. */
export const openItem = ({ kind, of }: Item): BayPlanPatch =>
  kind === 'booking' ? { open: of.id } : { proposed: of.vehicle };
