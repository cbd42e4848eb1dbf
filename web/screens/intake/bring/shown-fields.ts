import type { SeenReading } from '#server/contract/looks.ts';
import { noFigure } from '#web/format/format-number.ts';

interface ShownField {
  field: keyof SeenReading;
  /** with the unit that is stored, whatever units the reader likes */
  head: string;
  show: (reading: SeenReading, places: number) => string;
}

const figure =
  (field: keyof SeenReading) =>
  (reading: SeenReading, places: number): string => {
    const value = reading[field];
    if (typeof value !== 'number') return noFigure;
    const format = new Intl.NumberFormat('en-GB', {
      minimumFractionDigits: places,
      maximumFractionDigits: places,
    });
    return format.format(value).replace('-', '−');
  };

const all: readonly ShownField[] = [
  { field: 'odometer_km', head: 'Odometer, km', show: figure('odometer_km') },
  { field: 'slip_rpm', head: 'Slip, rpm', show: figure('slip_rpm') },
  { field: 'duty_pct', head: 'Duty, %', show: figure('duty_pct') },
  { field: 'fluid_c', head: 'Fluid, °C', show: figure('fluid_c') },
  { field: 'load_pct', head: 'Load, %', show: figure('load_pct') },
  { field: 'torque_pct', head: 'Torque, %', show: figure('torque_pct') },
  { field: 'throttle_pct', head: 'Throttle, %', show: figure('throttle_pct') },
  { field: 'speed_kmh', head: 'Speed, km/h', show: figure('speed_kmh') },
  { field: 'gear', head: 'Gear', show: figure('gear') },
  {
    field: 'shifting',
    head: 'Shifting',
    show: ({ shifting }) => (shifting === null ? noFigure : shifting ? 'yes' : 'no'),
  },
  { field: 'seconds', head: 'Window, s', show: figure('seconds') },
  {
    field: 'codes',
    head: 'Codes',
    show: ({ codes }) => (codes === null || codes.length === 0 ? noFigure : codes.join(' ')),
  },
];
const always = new Set<keyof SeenReading>(['odometer_km', 'slip_rpm', 'duty_pct']);

/** What a reading needs, and what any of these readings has; figures of a column with as many decimals as one of them needs. */
export const listShownFields = (readings: readonly SeenReading[]) =>
  all
    .filter(({ field }) => always.has(field) || readings.some((reading) => reading[field] !== null))
    .map(({ field, head, show }) => {
      const places = Math.max(0, ...readings.map((reading) => countPlaces(reading[field])));
      return { field, head, show: (reading: SeenReading) => show(reading, places) };
    });

function countPlaces(value: unknown): number {
  if (typeof value !== 'number') return 0;
  return [0, 1].find((places) => Math.abs(value - Number(value.toFixed(places))) < 1e-6) ?? 2;
}
