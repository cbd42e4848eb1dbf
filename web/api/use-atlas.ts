import { keepPreviousData, useQuery } from '@tanstack/react-query';
import type { Atlas } from '#server/contract/atlas.ts';
import { getJson } from './get-json.ts';

/** What was asked for before stays in sight while another period or vehicle is read. */
export const useAtlas = (platform: string, query: { days: number; vehicle: string | undefined }) =>
  useQuery({
    queryKey: ['atlas', platform, query],
    queryFn: ({ signal }) =>
      getJson<Atlas>(
        `/platforms/${encodeURIComponent(platform)}/atlas`,
        { days: query.days, vehicle: query.vehicle },
        signal,
      ),
    placeholderData: (before, asked) =>
      asked?.queryKey[1] === platform ? keepPreviousData(before) : undefined,
  });
