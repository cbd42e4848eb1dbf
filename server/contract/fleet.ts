import { z } from 'zod';
import { specialDays, unavailability, usualWeek, week } from './calendar.ts';
import { moment, plainText, vehicleUnit } from './readings.ts';
import { lifeEndings, lifeSources } from './words.ts';

const id = z
  .string()
  .trim()
  .min(1)
  .max(64)
  .regex(/^[\p{L}\p{N}][\p{L}\p{N} ._/-]*$/u, {
    error: 'must begin with a letter or digit and hold only letters, digits, space . _ / -',
  });
export const depotId = id;
const name = plainText.trim().min(1).max(120);
const percent = z.number().min(0).max(100);
const money = z
  .number()
  .min(0, { error: 'must not be negative' })
  .max(10_000_000, { error: 'must not be over 10,000,000' });
const km = z.number().min(0).max(5_000_000);

export const gateRules = z
  .object({
    low_load_pct: percent.default(15),
    overrun_slip_rpm: z.number().max(0).default(-15),
    low_speed_kmh: z.number().min(0).default(30),
    cold_fluid_c: z.number().default(55),
    hot_fluid_c: z.number().default(125),
    duty_step_pct: percent.default(5),
    duty_window_s: z.number().min(0).default(30),
  })
  .meta({ id: 'GateRules', description: 'Rules for steady lockup; readings outside are set aside' });

export const costs = z
  .object({
    road_failure: money
      .default(9000)
      .meta({ description: 'a failure on the road: tow, lost service, transmission' }),
    planned_repair: money.default(3200).meta({ description: 'the same converter changed in a booked bay' }),
    inspection: money.default(120).meta({ description: 'one inspection: work and material' }),
    lost_day: money
      .default(60)
      .meta({ description: 'what the service loses while the vehicle is in the bay' }),
  })
  .meta({ id: 'Costs', description: "in the fleet's own currency; defaults are examples, no source" });
export type Costs = z.output<typeof costs>;

const solenoid = z.object({
  ohm: z.number().positive().max(1000).meta({ description: 'resistance of the coil at 20 degC' }),
  supply_v: z.number().positive().max(100),
  wiring_ohm: z.number().min(0).max(100).default(0.5).meta({
    description: 'of wiring, connectors and driver; the default is common practice, no source',
  }),
  tolerance_pct: z.number().min(1).max(90).default(25).meta({
    description: 'how far a current may lie from the expected; the default is our own choice',
  }),
});

const converter = z.object({
  price: money,
  core_deposit: money.meta({ description: 'held until the old unit comes back' }),
  spare_cores: z.int().min(0).max(1000).default(0).meta({
    description: 'old units at hand that can go back in place of the one removed',
  }),
});
const converterMeta = { description: "what a converter costs, in the fleet's own currency" };

export const platformInput = z
  .object({
    id,
    name,
    limit_rpm: z
      .number()
      .positive({ error: 'must be above 0: at a limit of 0 every clutch counts as failed' })
      .max(5000)
      .default(150),
    band_edges_pct: z
      .array(percent)
      .min(2)
      .max(12)
      .refine((edges) => edges.every((edge, i) => i === 0 || edge > (edges[i - 1] ?? 0)), {
        error: 'must rise',
      })
      .default([40, 55, 70, 85, 100]),
    reference: z
      .object({
        duty_pct: percent.default(85),
        load_pct: percent.default(50),
        fluid_c: z.number().default(85),
      })
      .default({ duty_pct: 85, load_pct: 50, fluid_c: 85 }),
    gate: gateRules.default(gateRules.parse({})),
    life_km: km.positive().nullable().default(null).meta({ description: 'expected converter life, km' }),
    solenoid: solenoid.nullable().default(null),
    converter: converter.nullable().default(null).meta(converterMeta),
    reference_torque_nm: z.number().positive().nullable().default(null),
    costs: costs.default(costs.parse({})),
    inspection_hours: z
      .number()
      .min(0.25)
      .max(24)
      .multipleOf(0.25)
      .default(3)
      .meta({ description: 'how long an inspection has a bay, h, in quarters' }),
  })
  .meta({ id: 'Platform' });
export type PlatformInput = z.input<typeof platformInput>;
export type Platform = z.output<typeof platformInput>;

/** As it is sent: of a group that is stored already, a part may be left out too. */
export const platformChange = platformInput
  .extend({
    solenoid: solenoid.partial().nullable().optional(),
    converter: converter.partial().nullable().optional().meta(converterMeta),
  })
  .meta({
    id: 'PlatformChange',
    description:
      'Fields left out stay as they are, also within a group; null takes solenoid or converter away',
  });

export const depotInput = z
  .object({
    id,
    name,
    bays: z.int().min(0).max(500).default(1),
    time_zone: z
      .string()
      .max(64)
      .refine(isTimeZone, { error: 'must be an IANA time zone name, such as Europe/Vienna' })
      .default('UTC')
      .meta({ description: 'IANA time zone name' }),
    week: week.default(usualWeek),
    special_days: specialDays.default([]),
  })
  .refine(
    (depot) =>
      depot.bays === 0 ||
      Object.values(depot.week).some((hours) => hours !== null) ||
      depot.special_days.some((day) => day.hours !== null),
    {
      path: ['week'],
      error: 'has no working day, so nothing could be booked: give a weekday hours, or set bays to 0',
    },
  )
  .meta({ id: 'Depot' });
export type DepotInput = z.input<typeof depotInput>;
export type Depot = z.output<typeof depotInput>;

export const vehicleInput = z
  .object({
    id: vehicleUnit,
    depot: id.nullable().optional(),
    platform: id.nullable().optional(),
    vin: plainText.trim().max(17).nullable().optional(),
    retired: z.boolean().optional(),
    unavailable: z.array(unavailability).max(200).optional(),
  })
  .meta({ id: 'VehicleInput', description: 'Fields left out stay as they are' });
export type VehicleInput = z.input<typeof vehicleInput>;

/** Storage has no year 0, and a zone may carry the last day of the year 9999 beyond it. */
export const workshopDay = moment.refine(
  (text) => Date.parse(text) >= Date.UTC(1900, 0, 1) && Date.parse(text) < Date.UTC(2200, 0, 1),
  { error: 'must be within the years 1900 to 2199' },
);

export const lifeInput = z
  .object({
    vehicle: vehicleUnit,
    fitted_km: km,
    fitted_at: workshopDay.nullable().optional(),
    source: z.enum(lifeSources),
    removed_km: km.nullable().optional(),
    removed_at: workshopDay.nullable().optional(),
    ended: z.enum(lifeEndings).nullable().optional(),
    mode: plainText.trim().max(80).nullable().optional(),
    supplier: plainText.trim().max(120).nullable().optional(),
    run_km: km
      .nullable()
      .optional()
      .meta({ description: 'what the converter had run before it was fitted here; null where not known' }),
  })
  .superRefine((life, context) => {
    if (life.removed_km != null && life.removed_km < life.fitted_km)
      context.addIssue({ code: 'custom', path: ['removed_km'], message: 'must not be before fitted_km' });
    if (life.removed_at != null && life.fitted_at != null && isBefore(life.removed_at, life.fitted_at))
      context.addIssue({ code: 'custom', path: ['removed_at'], message: 'must not be before fitted_at' });
    if ((life.run_km ?? 0) > 0 && (life.source === 'new' || life.source === 'original'))
      context.addIssue({
        code: 'custom',
        path: ['run_km'],
        message: `must be 0 or left out: the source is ${life.source}`,
      });
    if (life.ended != null && life.removed_km == null)
      context.addIssue({
        code: 'custom',
        path: ['removed_km'],
        message: 'is missing: a life that ended has a mileage',
      });
  })
  .meta({ id: 'LifeInput', description: 'One converter in one vehicle, keyed by vehicle and fitted_km' });
export type LifeInput = z.input<typeof lifeInput>;

export const setUpReply = z.object({ created: z.int(), changed: z.int(), unchanged: z.int() }).meta({
  id: 'SetUpReply',
  description: 'How many objects of the request were new, changed, or as they were',
});
export type SetUpReply = z.infer<typeof setUpReply>;

const isBefore = (a: string, b: string): boolean => Date.parse(a) < Date.parse(b);

function isTimeZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}
