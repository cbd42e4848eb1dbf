import { z } from 'zod';
import { lifeInput } from '#server/contract/fleet.ts';

const { vehicle, fitted_km: km, fitted_at: day, mode, supplier, run_km: runKm } = lifeInput.shape;

/** One change of a converter as a workshop has it in its books. What is left out is not known. */
export const failureInput = z
  .object({
    vehicle,
    odometer_km: km.positive({ error: 'must be above 0' }),
    day,
    ended: z.enum(['failed', 'preventive']).optional(),
    mode,
    next_source: z
      .enum(['new', 'rebuilt', 'used'])
      .nullable()
      .optional()
      .meta({ description: 'null where nothing was fitted' }),
    next_supplier: supplier,
    next_run_km: runKm,
  })
  .superRefine((failure, context) => {
    if (failure.next_source === 'new' && (failure.next_run_km ?? 0) > 0)
      context.addIssue({
        code: 'custom',
        path: ['next_run_km'],
        message: 'must be 0 or left out: what was fitted is new',
      });
    if (failure.next_source === null && (failure.next_supplier != null || failure.next_run_km != null))
      context.addIssue({
        code: 'custom',
        path: ['next_source'],
        message: 'says that nothing was fitted, but supplier or kilometres of it are given',
      });
  });
export type Failure = z.output<typeof failureInput>;
