import { useQuery } from '@tanstack/react-query';
import type { PlatformMovement, PlatformSummary } from '#server/contract/movement.ts';
import { getJson } from './get-json.ts';

export const usePlatformSummaries = () =>
  useQuery({
    queryKey: ['movement'],
    queryFn: ({ signal }) => getJson<PlatformSummary[]>('/movement', {}, signal),
  });

export const usePlatformMovement = (platform: string) =>
  useQuery({
    queryKey: ['movement', platform],
    queryFn: ({ signal }) =>
      getJson<PlatformMovement>(`/platforms/${encodeURIComponent(platform)}/movement`, {}, signal),
  });
