import { z } from 'zod';
import { fleetEvent } from './movement.ts';

const rpm = z.number().meta({ description: 'rpm' });

export const atlasQuery = z.object({
  days: z.coerce
    .number()
    .int()
    .min(7)
    .max(1_461)
    .default(365)
    .meta({ description: 'back from the newest reading' }),
  vehicle: z.string().min(1).max(64).optional().meta({ description: 'a vehicle to lay on top' }),
});

/** Where the newest slip of a vehicle lies among what all others of its platform showed in the same band. */
export const atlasStanding = z.object({
  vehicle: z.string(),
  from_pct: z.number().meta({ description: 'of the command band that holds most of its readings' }),
  to_pct: z.number(),
  slip_rpm: rpm.meta({ description: 'mean of its newest stretches there, weighted by readings' }),
  stretches: z.int().meta({ description: 'that the mean is of' }),
  middle_rpm: rpm.meta({ description: 'median of the others' }),
  others: z.int().meta({ description: 'readings of the others' }),
  share_below: z.number().min(0).max(1).meta({ description: 'of the readings of the others' }),
});
export type AtlasStanding = z.infer<typeof atlasStanding>;

/** One axis with slip above it: what all vehicles show there, stretch by stretch. */
export const atlasPlane = z.object({
  x_edges: z.array(z.number()).meta({ description: '% command, or degC of fluid' }),
  slip_edges: z.array(rpm),
  /** of cell (x, slip), row by row of x */
  readings: z
    .array(z.array(z.number()))
    .meta({ description: 'usable readings in each cell: one list for each step of x' }),
  quantiles: z.array(
    z.object({
      x: z.number().meta({ description: 'middle of the step' }),
      n: z.int().meta({ description: 'usable readings' }),
      vehicles: z.int(),
      p05: rpm,
      p25: rpm,
      p50: rpm,
      p75: rpm,
      p95: rpm,
    }),
  ),
  above: z.int().meta({ description: 'readings beyond the last slip edge' }),
  vehicle: z
    .array(
      z.object({
        x: z.number(),
        slip_rpm: rpm,
        n: z.int(),
        odometer_km: z.number(),
        at: z.iso.datetime(),
      }),
    )
    .nullable()
    .meta({ description: 'stretches of the one on top, oldest first' }),
});
export type AtlasPlane = z.infer<typeof atlasPlane>;

export const atlasReply = z
  .object({
    platform: z.object({
      id: z.string(),
      name: z.string(),
      limit_rpm: rpm,
      band_edges_pct: z.array(z.number()),
    }),
    from: z.iso.datetime().nullable().meta({ description: 'null where there is no reading' }),
    to: z.iso.datetime().nullable(),
    vehicles: z.int().meta({ description: 'with stretches in the period' }),
    stretches: z.int(),
    by_command: atlasPlane,
    by_fluid: atlasPlane
      .nullable()
      .meta({ description: 'at the reference command; null where no feed has a temperature' }),
    standing: atlasStanding
      .nullable()
      .meta({ description: 'null where no vehicle was asked for, or nothing is there to compare' }),
    events: z.array(fleetEvent).meta({ description: 'steps of the whole platform, in order of time' }),
    choices: z.array(z.string()).meta({ description: 'vehicles of the platform with stretches' }),
  })
  .meta({ id: 'Atlas' });
export type Atlas = z.infer<typeof atlasReply>;
