import { useMemo } from 'react';
import { useDepots } from '#web/api/use-fleet.ts';
import { usePerson } from '#web/api/use-session.ts';

/** The depots for which the reader works, in the order of their names. */
export function useOwnDepots(): readonly { id: string; name: string }[] {
  const depots = useDepots().data;
  const own = usePerson()?.depots ?? null;
  return useMemo(() => (depots ?? []).filter(({ id }) => own === null || own.includes(id)), [depots, own]);
}
