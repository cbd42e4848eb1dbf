import { useMemo } from 'react';
import { useMedia } from '#web/ui/use-media.ts';

/** Columns that a narrower screen leaves to the opened row. */
export interface Columns {
  choose: boolean;
  depot: boolean;
  platform: boolean;
  spark: boolean;
  odometer: boolean;
  lastReading: boolean;
  count: number;
}

const always = 8;

export function useColumns(choose: boolean): Columns {
  const isMiddle = useMedia('(min-width: 72rem)');
  const isWide = useMedia('(min-width: 100rem)');
  return useMemo(() => {
    const columns = {
      choose,
      depot: isMiddle,
      platform: isWide,
      spark: isMiddle,
      odometer: isWide,
      lastReading: isWide,
    };
    return { ...columns, count: always + Object.values(columns).filter(Boolean).length };
  }, [choose, isMiddle, isWide]);
}
