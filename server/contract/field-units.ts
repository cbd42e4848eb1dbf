import type { FileUnit, MappedField } from './mappings.ts';

const distance = ['km', 'mi', 'm'] as const;
const turning = ['rpm', 'rps'] as const;
const share = ['%', 'ratio'] as const;
const temperature = ['degC', 'degF', 'K'] as const;
const speed = ['km/h', 'mph', 'm/s'] as const;
export const durationUnits = ['s', 'ms', 'min'] as const;

/** Units that the figures of a field may be in, our own first; none where a field has no unit. */
export const fieldUnits: Readonly<Record<MappedField, readonly FileUnit[]>> = {
  odometer_km: distance,
  slip_rpm: turning,
  engine_rpm: turning,
  turbine_rpm: turning,
  duty_pct: share,
  fluid_c: temperature,
  load_pct: share,
  torque_pct: share,
  throttle_pct: share,
  speed_kmh: speed,
  gear: [],
  shifting: [],
  seconds: durationUnits,
  codes: [],
};
