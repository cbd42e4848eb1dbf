import { durationUnits, fieldUnits } from '#server/contract/field-units.ts';
import type { ColumnTake, FileUnit, MappedField, Mapping } from '#server/contract/mappings.ts';

export const fieldWords: Record<MappedField, string> = {
  odometer_km: 'odometer',
  slip_rpm: 'slip',
  engine_rpm: 'engine speed',
  turbine_rpm: 'turbine speed',
  duty_pct: 'commanded duty',
  fluid_c: 'fluid temperature',
  load_pct: 'engine load',
  torque_pct: 'engine torque',
  throttle_pct: 'throttle',
  speed_kmh: 'road speed',
  gear: 'gear',
  shifting: 'shift in progress',
  seconds: 'length of the window',
  codes: 'trouble codes',
};

export const takeWords: Record<ColumnTake, string> = {
  vehicle: 'vehicle',
  time: 'day and time',
  date: 'day',
  clock: 'time of day',
  name: 'name of the value',
  value: 'the value',
  unit: 'unit of the value',
  ...fieldWords,
};

const whole = ['vehicle', 'time', 'date', 'clock'] as const;
/** A sentence of the server, with fields in the words of this page; names in quotes are those of the file. */
export const sayFields = (text: string): string =>
  text.replaceAll(/(?<!['\w])[a-z]+_[a-z_]+(?!['\w])/g, (word) =>
    Object.hasOwn(fieldWords, word) ? fieldWords[word as MappedField] : word,
  );

export const takesOf = {
  wide: [...whole, ...(Object.keys(fieldWords) as MappedField[])],
  long: [...whole, 'name', 'value', 'unit'],
} as const satisfies Record<string, readonly ColumnTake[]>;

export const unitWords: Record<FileUnit, string> = {
  km: 'km',
  mi: 'miles',
  m: 'm',
  rpm: 'rpm',
  rps: 'turns a second',
  '%': '%',
  ratio: '0 to 1',
  degC: '°C',
  degF: '°F',
  K: 'K',
  'km/h': 'km/h',
  mph: 'mph',
  'm/s': 'm/s',
  s: 's',
  ms: 'ms',
  min: 'min',
};

const isField = (take: ColumnTake): take is MappedField => Object.hasOwn(fieldWords, take);

/** Units that something may come in, our own first; none where it has no unit. Seconds since a start may be counted otherwise. */
export function unitsOf(take: ColumnTake, form: Mapping['time']['form'] = 'text'): readonly FileUnit[] {
  if (isField(take)) return fieldUnits[take];
  return take === 'time' && form === 'seconds' ? durationUnits : [];
}
