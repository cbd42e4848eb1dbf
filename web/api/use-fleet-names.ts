import { useMemo } from 'react';
import { useDepots, usePlatforms } from './use-fleet.ts';

export interface FleetNames {
  depot: (id: string) => string;
  platform: (id: string) => string;
}

/** Names of depots and platforms by id; the id stands for a name that is not there, or not yet. */
export function useFleetNames(): FleetNames {
  const depots = useDepots().data;
  const platforms = usePlatforms().data;
  return useMemo(() => ({ depot: nameIn(depots), platform: nameIn(platforms) }), [depots, platforms]);
}

/** The same for depots alone, where nothing else is named. */
export function useDepotName(): (id: string) => string {
  const depots = useDepots().data;
  return useMemo(() => nameIn(depots), [depots]);
}

function nameIn(list: readonly { id: string; name: string }[] | undefined): (id: string) => string {
  const names = new Map(list?.map(({ id, name }) => [id, name]));
  return (id) => names.get(id) ?? id;
}
