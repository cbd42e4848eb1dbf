import { useMemo } from 'react';
import type { Depot } from '#server/contract/fleet.ts';
import { todayAt } from '#web/format/zones.ts';
import { useDepots } from './use-fleet.ts';
import { usePerson } from './use-session.ts';

/** The depots for which the reader works, in the order of their names. */
export function useOwnDepots(): readonly Depot[] {
  const depots = useDepots().data;
  const own = usePerson()?.depots ?? null;
  return useMemo(() => (depots ?? []).filter(({ id }) => own === null || own.includes(id)), [depots, own]);
}

/** Which day it is at a depot of the reader, or at the first; where the reader sits while none is known. */
export function useTodayAt(depot: string | undefined): string {
  const depots = useOwnDepots();
  const zone = (depots.find(({ id }) => id === depot) ?? depots[0])?.time_zone;
  return todayAt(zone ?? new Intl.DateTimeFormat().resolvedOptions().timeZone, new Date());
}
