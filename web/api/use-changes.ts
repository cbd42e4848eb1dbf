import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { Changes, ChangesQuery } from '#server/contract/changes.ts';
import { getJson } from './get-json.ts';
import { writeQuery } from './write-query.ts';

/** What narrows the changes, for the page and for the file alike. */
export type ChangesFilter = {
  [K in keyof Omit<ChangesQuery, 'limit' | 'before_id'>]: ChangesQuery[K] | undefined;
};

export const changesPageSize = 50;

export const useChanges = (filter: ChangesFilter, beforeId: number | undefined) =>
  useQuery({
    queryKey: ['changes', filter, beforeId],
    queryFn: ({ signal }) =>
      getJson<Changes>('/changes', { ...filter, before_id: beforeId, limit: changesPageSize }, signal),
    placeholderData: keepPreviousData,
    staleTime: 0,
  });

export const changesFileAddress = (filter: ChangesFilter): string =>
  writeQuery('/api/changes.csv', { ...filter });
