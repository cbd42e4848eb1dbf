import { z } from 'zod';
import { celsiusFromFahrenheit, kmFromMiles } from './units.ts';

/** A number within bounds outside of which no instrument of a road vehicle reads. */
const measured = (low: number, high: number, unit: string) =>
  z
    .number({ error: (issue) => (issue.input === undefined ? 'is missing' : `must be a number in ${unit}`) })
    .min(low, { error: `must be at least ${low} ${unit}` })
    .max(high, { error: `must be at most ${high} ${unit}` });

/** Text that storage can hold and a person can read. */
export const plainText = z.string().refine(isPlainText, { error: 'must not contain control characters' });

/** The same over several lines, however the sender ends them. */
export const plainLines = z
  .string()
  .overwrite((text) => text.replaceAll('\r\n', '\n').trim())
  .refine((text) => isPlainText(text.replaceAll('\n', '')), {
    error: 'must not contain control characters other than line breaks',
  });

export const vehicleUnit = z
  .string({ error: (issue) => (issue.input === undefined ? 'is missing' : 'must be text') })
  .trim()
  .min(1, { error: 'must not be empty' })
  .max(64, { error: 'must have at most 64 characters' })
  .refine(isPlainText, { error: 'must not contain control characters' })
  .meta({ description: "the fleet's own unit number", examples: ['B-1207'] });

export const moment = z.iso
  .datetime({
    offset: true,
    error: (issue) =>
      issue.input === undefined
        ? 'is missing'
        : 'must be an RFC 3339 time with its zone, such as 2026-03-04T05:06:07Z',
  })
  .meta({ description: 'RFC 3339 time with its zone', examples: ['2026-03-04T05:06:07Z'] });

const troubleCode = z
  .string({ error: 'must be text' })
  .trim()
  .min(1, { error: 'must not be empty' })
  .max(32, { error: 'must have at most 32 characters' })
  .refine(isPlainText, { error: 'must not contain control characters' });

const fluidNote = 'transmission fluid: at most one of fluid_c and fluid_f; intervals are wider without';

/** One telemetry record as a gateway sends it; units are in the names. */
export const readingInput = z
  .object({
    vehicle: vehicleUnit,
    at: moment,
    odometer_km: measured(0, 5_000_000, 'km').optional(),
    odometer_mi: measured(0, 3_100_000, 'mi').optional(),
    slip_rpm: measured(-6000, 6000, 'rpm').optional(),
    engine_rpm: measured(0, 8000, 'rpm').optional(),
    turbine_rpm: measured(0, 8000, 'rpm').optional(),
    duty_pct: measured(0, 100, '%'),
    fluid_c: measured(-60, 250, 'degC').optional().meta({ description: fluidNote }),
    fluid_f: measured(-76, 482, 'degF').optional().meta({ description: fluidNote }),
    load_pct: measured(0, 130, '%')
      .optional()
      .meta({ description: 'engine load; intervals are wider without' }),
    torque_pct: measured(-125, 130, '%').optional(),
    throttle_pct: measured(0, 110, '%').optional(),
    speed_kmh: measured(0, 200, 'km/h').optional(),
    speed_mph: measured(0, 125, 'mph').optional(),
    gear: z
      .int({ error: 'must be a whole number' })
      .min(-4, { error: 'must be at least -4' })
      .max(32, { error: 'must be at most 32' })
      .optional(),
    shifting: z.boolean({ error: 'must be true or false' }).optional(),
    seconds: measured(0, 86_400, 's').optional(),
    codes: z
      .array(troubleCode, { error: 'must be a list of texts' })
      .max(64, { error: 'must be at most 64 codes' })
      .optional()
      .meta({ description: 'trouble codes active', examples: [['P0741']] }),
  })
  .superRefine((reading, context) => {
    const complain = (field: keyof typeof reading, message: string) =>
      context.addIssue({ code: 'custom', path: [field], message });
    const atMostOne = (a: keyof typeof reading, b: keyof typeof reading) => {
      if (reading[a] !== undefined && reading[b] !== undefined)
        complain(a, `and ${b} are both given; send one of them`);
    };
    if (reading.odometer_km === undefined && reading.odometer_mi === undefined)
      complain('odometer_km', 'is missing (or give odometer_mi)');
    atMostOne('odometer_km', 'odometer_mi');
    atMostOne('fluid_c', 'fluid_f');
    atMostOne('speed_kmh', 'speed_mph');
    const speeds = reading.engine_rpm !== undefined && reading.turbine_rpm !== undefined;
    if (reading.slip_rpm === undefined && !speeds)
      complain('slip_rpm', 'is missing (or give engine_rpm and turbine_rpm)');
  })
  .meta({
    id: 'ReadingInput',
    description:
      'One telemetry record of one vehicle at one moment. Needed: vehicle, at, one of the odometers, slip or both shaft ' +
      'speeds, and duty. Fluid temperature, load and everything else may be left out.',
  });
/** Names of the fields that a reading may have. */
export const readingFields = Object.keys(readingInput.shape);
export type ReadingInput = z.input<typeof readingInput>;

/** A reading in the units that are stored. */
export interface Reading {
  vehicle: string;
  at: Date;
  odometerKm: number;
  slipRpm: number;
  dutyPct: number;
  fluidC: number | null;
  loadPct: number | null;
  torquePct: number | null;
  throttlePct: number | null;
  speedKmh: number | null;
  gear: number | null;
  shifting: boolean | null;
  seconds: number | null;
  codes: string[] | null;
}

/** Converts a checked input to stored units. Slip given outright wins over slip from the two speeds. */
export function toReading(input: z.output<typeof readingInput>): Reading {
  const { odometer_km, odometer_mi, fluid_c, fluid_f, speed_kmh, speed_mph } = input;
  return {
    vehicle: input.vehicle,
    at: new Date(input.at),
    odometerKm: odometer_km ?? kmFromMiles(odometer_mi ?? Number.NaN),
    slipRpm: input.slip_rpm ?? (input.engine_rpm ?? Number.NaN) - (input.turbine_rpm ?? Number.NaN),
    dutyPct: input.duty_pct,
    fluidC: fluid_c ?? (fluid_f === undefined ? null : celsiusFromFahrenheit(fluid_f)),
    loadPct: input.load_pct ?? null,
    torquePct: input.torque_pct ?? null,
    throttlePct: input.throttle_pct ?? null,
    speedKmh: speed_kmh ?? (speed_mph === undefined ? null : kmFromMiles(speed_mph)),
    gear: input.gear ?? null,
    shifting: input.shifting ?? null,
    seconds: input.seconds ?? null,
    codes: input.codes === undefined || input.codes.length === 0 ? null : input.codes,
  };
}

/** Neither control characters nor half a surrogate pair, which UTF-8 cannot carry. */
function isPlainText(text: string): boolean {
  return !/[\p{Cc}\p{Cs}]/u.test(text);
}
