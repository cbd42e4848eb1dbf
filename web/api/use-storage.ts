import { useQuery } from '@tanstack/react-query';
import type { StorageReport } from '#server/contract/storage.ts';
import { getJson } from './get-json.ts';

/** Upkeep runs by itself: what is shown follows it. */
const lookEveryMs = 60_000;

export const useStorage = () =>
  useQuery({
    queryKey: ['storage'],
    queryFn: ({ signal }) => getJson<StorageReport>('/storage', {}, signal),
    refetchInterval: lookEveryMs,
  });
