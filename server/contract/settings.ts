import { z } from 'zod';
import { platformInput } from './fleet.ts';
import { grades } from './words.ts';

const chance = z.number().min(0.01).max(0.99);

/** Where grades begin; own choice, calibrated on simulated fleets. */
export const thresholds = z
  .object({
    evidence_q: z
      .number()
      .min(0.001)
      .max(0.5)
      .default(0.05)
      .meta({ description: 'most false alarms among the vehicles said to drift, as a share' }),
    hold_chance: chance.default(0.35).meta({
      description: 'chance of being past the limit now or within 1,000 km from which a vehicle is held',
    }),
    book_chance: chance
      .default(0.15)
      .meta({ description: 'chance within the planning horizon from which it is booked' }),
    quiet_days: z
      .int()
      .min(1)
      .max(365)
      .default(30)
      .meta({ description: 'days without a reading after which nobody can say that slip is still steady' }),
  })
  .meta({ id: 'Thresholds' });
export type Thresholds = z.output<typeof thresholds>;

/** Fields of a platform that a preview may change; what is left out stays. */
export const previewRequest = z
  .object({
    platform: z
      .object({ id: platformInput.shape.id, limit_rpm: z.number().positive().max(5000).optional() })
      .extend({ costs: z.record(z.string(), z.number()).optional() })
      .optional(),
    thresholds: thresholds.partial().optional(),
  })
  .meta({ id: 'PreviewRequest' });
export type PreviewRequest = z.output<typeof previewRequest>;

const counts = z.record(z.enum(grades), z.int());

export const preview = z
  .object({
    vehicles: z.int().meta({ description: 'in the list' }),
    before: counts,
    after: counts,
    moved: z
      .array(
        z.object({
          vehicle: z.string(),
          depot: z.string().nullable(),
          grade_before: z.enum(grades),
          grade: z.enum(grades),
          rank_before: z.int(),
          rank: z.int(),
        }),
      )
      .meta({ description: 'vehicles of another grade, then those whose rank changes most; 50 at most' }),
    regraded: z.int(),
    reranked: z.int(),
  })
  .meta({ id: 'Preview', description: 'What the list would be; nothing was stored' });
export type Preview = z.infer<typeof preview>;
