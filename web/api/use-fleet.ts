import { useQuery } from '@tanstack/react-query';
import type { Depot, Platform } from '#server/contract/fleet.ts';
import { getJson } from './get-json.ts';

/** Depots and platforms change a few times a year. */
const staleTime = 10 * 60_000;

export const usePlatforms = () =>
  useQuery({
    queryKey: ['platforms'],
    queryFn: ({ signal }) => getJson<Platform[]>('/platforms', {}, signal),
    staleTime,
  });

export const useDepots = () =>
  useQuery({
    queryKey: ['depots'],
    queryFn: ({ signal }) => getJson<Depot[]>('/depots', {}, signal),
    staleTime,
  });
