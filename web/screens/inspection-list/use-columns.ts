import { useMemo } from 'react';
import { useMedia } from '#web/ui/use-media.ts';

/** Columns that a narrower screen leaves to the opened row. */
export interface Columns {
  place: boolean;
  spark: boolean;
  odometer: boolean;
  lastReading: boolean;
  count: number;
}

const always = 10;

export function useColumns(): Columns {
  const isMiddle = useMedia('(min-width: 72rem)');
  const isWide = useMedia('(min-width: 100rem)');
  return useMemo(() => {
    const columns = { place: isMiddle, spark: isMiddle, odometer: isWide, lastReading: isWide };
    return { ...columns, count: always + Object.values(columns).filter(Boolean).length };
  }, [isMiddle, isWide]);
}
