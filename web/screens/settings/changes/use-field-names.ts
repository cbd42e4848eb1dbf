import { useMemo } from 'react';
import { useDepots, usePlatforms } from '#web/api/use-fleet.ts';
import type { NameOf } from './list-field-changes.ts';

/** Depots and platforms are in the changes by their ids, which people do not know them by. */
export function useFieldNames(): NameOf {
  const depots = useDepots().data;
  const platforms = usePlatforms().data;
  return useMemo(() => {
    const depotNames = new Map(depots?.map(({ id, name }) => [id, name]));
    const platformNames = new Map(platforms?.map(({ id, name }) => [id, name]));
    const names: Record<string, ReadonlyMap<string, string>> = {
      depot: depotNames,
      depots: depotNames,
      platform: platformNames,
    };
    return (field, id) => names[field]?.get(id) ?? id;
  }, [depots, platforms]);
}
