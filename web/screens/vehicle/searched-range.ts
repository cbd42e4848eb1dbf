import type { KmRange, MileageView } from '#web/charts/mileage-view.ts';
import { fitRange, isSame } from '#web/charts/zoom-range.ts';
import type { VehiclePatch, VehicleSearch } from './vehicle-search.ts';

type Ranges = Pick<MileageView, 'first' | 'whole'>;

/** The part of the mileage that an address asks for; without one, what the chart begins with. */
export const readSearchedRange = ({ first, whole }: Ranges, { from, to }: VehicleSearch): KmRange =>
  from === undefined || to === undefined ? first : fitRange({ fromKm: from, toKm: to }, whole);

export const patchSearchedRange = ({ first }: Ranges, range: KmRange): VehiclePatch =>
  isSame(range, first) ? { from: undefined, to: undefined } : { from: range.fromKm, to: range.toKm };
