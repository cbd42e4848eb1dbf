import { useMemo } from 'react';
import { useKeys } from '#web/api/use-keys.ts';
import { usePeople } from '#web/api/use-people.ts';

/** Names of people and keys by id, as they are now. */
export function useSubjectNames(): ReadonlyMap<string, string> {
  const people = usePeople().data;
  const keys = useKeys().data;
  return useMemo(
    () => new Map([...(people ?? []), ...(keys ?? [])].map(({ id, name }) => [id, name])),
    [people, keys],
  );
}
