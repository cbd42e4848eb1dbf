import type { LifeRow } from '#server/services/fleet/life-rows.ts';

/** A life as it will be, and the line that first had to do with it; null for one that is only on record. */
export interface PlacedLife extends Omit<LifeRow, 'vehicle'> {
  line: number | null;
}

export const sayKm = (km: number): string =>
  `${km.toLocaleString('en', { maximumFractionDigits: 1, useGrouping: true })} km`;
