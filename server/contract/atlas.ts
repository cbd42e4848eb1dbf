import { z } from 'zod';

const rpm = z.number().meta({ description: 'rpm' });

export const atlasQuery = z.object({
  days: z.coerce
    .number()
    .int()
    .min(7)
    .max(1_461)
    .default(365)
    .meta({ description: 'back from the newest stretch' }),
  vehicle: z.string().max(64).optional().meta({ description: 'a vehicle to lay on top' }),
});

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
    from: z.iso.datetime().nullable(),
    to: z.iso.datetime().nullable(),
    vehicles: z.int(),
    stretches: z.int(),
    by_command: atlasPlane,
    by_fluid: atlasPlane
      .nullable()
      .meta({ description: 'at the reference command; null where no feed has a temperature' }),
    events: z.array(z.object({ at: z.iso.datetime(), size_rpm: rpm, vehicles: z.int() })),
    choices: z.array(z.string()).meta({ description: 'vehicles of the platform with stretches' }),
  })
  .meta({ id: 'Atlas' });
export type Atlas = z.infer<typeof atlasReply>;
