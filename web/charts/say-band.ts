import type { BandSeries } from '#server/contract/vehicle.ts';
import { withUnit } from '#web/format/with-unit.ts';

/** A command band in words: '70 to 85 %'. */
export const sayBand = (band: Pick<BandSeries, 'band' | 'duty_from_pct' | 'duty_to_pct'>): string =>
  band.duty_from_pct === null || band.duty_to_pct === null
    ? band.band
    : `${band.duty_from_pct} to ${withUnit(String(band.duty_to_pct), '%')}`;
