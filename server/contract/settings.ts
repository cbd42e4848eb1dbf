import { z } from 'zod';
import { costs, depotId, platformInput } from './fleet.ts';
import { grades } from './words.ts';

const chance = z.number().min(0.01).max(0.99);

/** Where grades begin; own choice, calibrated on simulated fleets. */
export const thresholds = z
  .strictObject({
    evidence_q: z
      .number()
      .min(0.001)
      .max(0.5)
      .default(0.05)
      .meta({ description: 'most false alarms among the vehicles said to drift, as a share' }),
    hold_chance: chance.default(0.25).meta({
      description: 'chance of being past the limit now or within 1,000 km from which a vehicle is held',
    }),
    book_chance: chance
      .default(0.06)
      .meta({ description: 'chance within the planning horizon from which it is booked' }),
    quiet_days: z
      .int()
      .min(14, { error: 'must be 14 or more: a shorter silence is not noted' })
      .max(365)
      .default(30)
      .meta({ description: 'days without a reading after which nobody can say that slip is still steady' }),
  })
  .meta({ id: 'Thresholds' });
export type Thresholds = z.output<typeof thresholds>;
export const usualThresholds: Thresholds = thresholds.parse({});

/** What is left out stays as it is. */
export const previewRequest = z
  .strictObject({
    platform: z
      .strictObject({
        id: depotId.meta({ description: 'of the platform' }),
        limit_rpm: platformInput.shape.limit_rpm.unwrap().optional(),
        life_km: platformInput.shape.life_km.unwrap().optional(),
        costs: costs.optional().meta({ description: 'all of them; one that is left out is the usual one' }),
      })
      .optional(),
    thresholds: thresholds.optional(),
  })
  .refine((request) => request.platform !== undefined || request.thresholds !== undefined, {
    error: 'must name a platform or thresholds',
  })
  .meta({ id: 'PreviewRequest' });
export type PreviewRequest = z.output<typeof previewRequest>;

const counts = z.record(z.enum(grades), z.int());

export const movedVehicle = z.object({
  vehicle: z.string(),
  depot: z.string().nullable(),
  grade_before: z.enum(grades),
  grade: z.enum(grades),
  rank_before: z.int(),
  rank: z.int(),
});
export type MovedVehicle = z.infer<typeof movedVehicle>;

export const preview = z
  .object({
    vehicles: z.int().meta({ description: 'in the list' }),
    before: counts,
    after: counts,
    moved: z.array(movedVehicle).meta({
      description: 'vehicles of another grade, then those whose rank changes most; 50 at most',
    }),
    regraded: z.int(),
    reranked: z.int(),
  })
  .meta({ id: 'Preview', description: 'What the list would be; nothing was stored' });
export type Preview = z.infer<typeof preview>;

export const previewReply = z
  .object({
    done: z.int(),
    of: z.int().meta({ description: 'vehicles that a changed limit or life has assessed anew' }),
    preview: preview
      .nullable()
      .meta({ description: 'null while they are being assessed: ask again with the same body' }),
  })
  .meta({ id: 'PreviewReply' });
export type PreviewReply = z.infer<typeof previewReply>;

/** Open bookings that a changed calendar leaves without room. */
export const depotPreview = z
  .object({
    misfits: z.array(
      z.object({
        booking: z.int(),
        vehicle: z.string(),
        day: z.iso.date(),
        from: z.string().meta({ description: 'in the time of the depot' }),
        to: z.string(),
        bay: z.int(),
        why: z.string().meta({ description: 'as a sentence' }),
      }),
    ),
    open: z.int().meta({
      description:
        'bookings that were looked at: those of today and later, and older ones that are not closed and stand in the way',
    }),
  })
  .meta({ id: 'DepotPreview', description: 'Nothing was stored' });
export type DepotPreview = z.infer<typeof depotPreview>;
