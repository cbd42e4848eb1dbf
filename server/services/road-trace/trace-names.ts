/** What a column of a recorded road test may hold, and what it is called. Words of the trade; common practice, no source. */
export const traceFields = [
  'time',
  'throttle',
  'speed',
  'slip',
  'engine',
  'turbine',
  'duty',
  'load',
  'fluid',
  'gear',
  'shifting',
] as const;
export type TraceField = (typeof traceFields)[number];

type Unit = 's' | 'ms' | '%' | 'km/h' | 'mph' | 'rpm' | 'degC' | 'degF';

interface FieldNames {
  /** for messages */
  words: string;
  /** best first: the first that a file has is taken */
  names: readonly string[];
  /** the first is assumed where none is said; none where the field has no unit */
  units: readonly Unit[];
}

export const fieldNames: Record<TraceField, FieldNames> = {
  time: {
    words: 'time',
    names: ['time', 'seconds', 'milliseconds', 'elapsed_time', 'elapsed', 'timestamp', 'at', 't'],
    units: ['s', 'ms'],
  },
  throttle: {
    words: 'throttle',
    names: [
      'throttle',
      'throttle_position',
      'throttle_pos',
      'absolute_throttle_position',
      'tps',
      'pedal',
      'accelerator_pedal',
      'accelerator_pedal_position',
    ],
    units: ['%'],
  },
  speed: { words: 'speed', names: ['speed', 'vehicle_speed', 'road_speed'], units: ['km/h', 'mph'] },
  slip: {
    words: 'slip',
    names: [
      'slip',
      'slip_speed',
      'clutch_slip',
      'converter_slip',
      'converter_clutch_slip',
      'torque_converter_slip',
      'tcc_slip',
      'tcc_slip_speed',
    ],
    units: ['rpm'],
  },
  engine: { words: 'engine speed', names: ['engine', 'engine_speed', 'rpm'], units: ['rpm'] },
  turbine: {
    words: 'turbine speed',
    names: ['turbine', 'turbine_speed', 'input_shaft', 'input_shaft_speed', 'input_speed'],
    units: ['rpm'],
  },
  duty: {
    words: 'commanded duty',
    names: [
      'duty',
      'duty_cycle',
      'commanded_duty',
      'command',
      'clutch_command',
      'lockup_command',
      'lockup_duty',
      'solenoid_duty',
      'tcc_duty',
      'tcc_duty_cycle',
      'tcc_command',
      'tcc_solenoid_duty',
    ],
    units: ['%'],
  },
  load: { words: 'load', names: ['load', 'engine_load', 'calculated_load'], units: ['%'] },
  fluid: {
    words: 'fluid temperature',
    names: [
      'fluid',
      'fluid_temp',
      'fluid_temperature',
      'transmission_fluid_temp',
      'transmission_fluid_temperature',
      'transmission_temp',
      'transmission_temperature',
      'trans_temp',
      'trans_fluid_temp',
      'tft',
    ],
    units: ['degC', 'degF'],
  },
  gear: { words: 'gear', names: ['gear', 'current_gear', 'actual_gear'], units: [] },
  shifting: { words: 'shifting', names: ['shifting', 'shift', 'shift_in_progress'], units: [] },
};

const spellings: Record<Unit, readonly string[]> = {
  s: ['s', 'sec', 'secs', 'second', 'seconds'],
  ms: ['ms', 'msec', 'millis', 'millisecond', 'milliseconds'],
  '%': ['%', 'pct', 'percent'],
  'km/h': ['km/h', 'kmh', 'kph', 'kmph'],
  mph: ['mph', 'mi/h'],
  rpm: ['rpm', 'r/min', '1/min', 'min-1', 'rev/min'],
  degC: ['c', '°c', 'degc', 'celsius'],
  degF: ['f', '°f', 'degf', 'fahrenheit'],
};

const unitBySpelling = new Map<string, Unit>();
for (const [unit, all] of Object.entries(spellings) as [Unit, readonly string[]][])
  for (const one of all) unitBySpelling.set(one, unit);
/** Units that are understood and not taken: nothing in them may pass for the assumed one. */
const otherUnits = new Set([
  'm/s',
  'v',
  'mv',
  'volt',
  'a',
  'ma',
  'bar',
  'kpa',
  'psi',
  'k',
  'hz',
  'rad/s',
  'h',
  'min',
  'us',
  'nm',
]);

export interface ColumnName {
  /** lower case, words joined by `_`, without the unit */
  name: string;
  /** a unit, `other` with its text, or null where none is said */
  unit: { unit: Unit | null; text: string } | null;
}

/** `Vehicle Speed (km/h)`, `vehicle_speed_kmh` and `vehicle speed [KMH]` are the same name and unit. */
export function readColumnName(cell: string): ColumnName {
  const text = cell.trim().toLowerCase();
  const bracketed = /^(.*?)\s*[[(<]([^\])>]*)[\])>]\s*$/.exec(text);
  const words = (bracketed?.[1] ?? text).split(/[^a-z0-9%°/]+/).filter((word) => word !== '');
  const told = bracketed === null ? null : readUnit(bracketed[2] ?? '');
  if (told !== null) return { name: words.join('_'), unit: told };
  const last = words.length > 1 ? readUnit(words.at(-1) ?? '') : null;
  if (last !== null) return { name: words.slice(0, -1).join('_'), unit: last };
  const unit = words[0] === 'milliseconds' ? 'ms' : words[0] === 'seconds' ? 's' : null;
  return { name: words.join('_'), unit: unit === null ? null : { unit, text: unit } };
}

/** A unit by itself; null where the text is none. */
export function readUnit(text: string): ColumnName['unit'] {
  const plain = text.toLowerCase().replaceAll(/[\s.[\]()]/g, '');
  const unit = unitBySpelling.get(plain);
  if (unit !== undefined) return { unit, text: plain };
  return otherUnits.has(plain) ? { unit: null, text: plain } : null;
}
