import { formatDay } from '#web/format/format-day.ts';
import type { Place } from './plan-search.ts';

export const sayPlace = ({ day, bay }: Place, depotName: string): string =>
  `${depotName}, bay ${bay}, ${formatDay(day)}`;
