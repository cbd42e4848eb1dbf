import type { ColumnTake, FileUnit, MappedField } from '#server/contract/mappings.ts';

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

const share = ['%', 'ratio'] as const;
const turning = ['rpm', 'rps'] as const;
/** Units that a field may come in, our own first; none where it has no unit. */
const unitsByField: Partial<Record<ColumnTake, readonly FileUnit[]>> = {
  odometer_km: ['km', 'mi', 'm'],
  slip_rpm: turning,
  engine_rpm: turning,
  turbine_rpm: turning,
  duty_pct: share,
  fluid_c: ['degC', 'degF', 'K'],
  load_pct: share,
  torque_pct: share,
  throttle_pct: share,
  speed_kmh: ['km/h', 'mph', 'm/s'],
  seconds: ['s', 'ms', 'min'],
};

export const unitsOf = (take: ColumnTake): readonly FileUnit[] => unitsByField[take] ?? [];
