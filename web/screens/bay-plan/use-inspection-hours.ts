import { useCallback } from 'react';
import { usePlatforms } from '#web/api/use-fleet.ts';

/** As the contract assumes where a platform says nothing. */
const usualHours = 3;

/** How long an inspection has a bay, by platform. */
export function useInspectionHours(): (platform: string | null) => number {
  const platforms = usePlatforms().data;
  return useCallback(
    (platform) => platforms?.find(({ id }) => id === platform)?.inspection_hours ?? usualHours,
    [platforms],
  );
}
