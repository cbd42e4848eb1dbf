import type { SeenReading } from '#server/contract/looks.ts';
import { noFigure } from '#web/format/format-number.ts';

interface ShownField {
  field: keyof SeenReading;
  /** with the unit that is stored, whatever units the reader likes */
  head: string;
  show: (reading: SeenReading) => string;
}

const places = (most: number) => new Intl.NumberFormat('en-GB', { maximumFractionDigits: most });
const whole = places(0);
const tenth = places(1);

const figure =
  (field: keyof SeenReading, format: Intl.NumberFormat) =>
  (reading: SeenReading): string => {
    const value = reading[field];
    return typeof value === 'number' ? format.format(value).replace('-', '−') : noFigure;
  };

const all: readonly ShownField[] = [
  { field: 'odometer_km', head: 'Odometer, km', show: figure('odometer_km', tenth) },
  { field: 'slip_rpm', head: 'Slip, rpm', show: figure('slip_rpm', tenth) },
  { field: 'duty_pct', head: 'Duty, %', show: figure('duty_pct', tenth) },
  { field: 'fluid_c', head: 'Fluid, °C', show: figure('fluid_c', tenth) },
  { field: 'load_pct', head: 'Load, %', show: figure('load_pct', tenth) },
  { field: 'torque_pct', head: 'Torque, %', show: figure('torque_pct', tenth) },
  { field: 'throttle_pct', head: 'Throttle, %', show: figure('throttle_pct', tenth) },
  { field: 'speed_kmh', head: 'Speed, km/h', show: figure('speed_kmh', tenth) },
  { field: 'gear', head: 'Gear', show: figure('gear', whole) },
  {
    field: 'shifting',
    head: 'Shifting',
    show: ({ shifting }) => (shifting === null ? noFigure : shifting ? 'yes' : 'no'),
  },
  { field: 'seconds', head: 'Window, s', show: figure('seconds', tenth) },
  {
    field: 'codes',
    head: 'Codes',
    show: ({ codes }) => (codes === null || codes.length === 0 ? noFigure : codes.join(' ')),
  },
];
const always = new Set<keyof SeenReading>(['odometer_km', 'slip_rpm', 'duty_pct']);

/** What a reading needs, and what any of these readings has. */
export const listShownFields = (readings: readonly SeenReading[]): ShownField[] =>
  all.filter(({ field }) => always.has(field) || readings.some((reading) => reading[field] !== null));
