import { z } from 'zod';
import { workshopDay } from './fleet.ts';
import { moment, plainLines, plainText } from './readings.ts';
import { question } from './test-steps.ts';
import {
  causes,
  coreStates,
  holdsConverter,
  lifeEndings,
  lifeSources,
  outcomes,
  partKinds,
} from './words.ts';

const money = z
  .number()
  .min(0, { error: 'must not be negative' })
  .max(10_000_000, { error: 'must not be over 10,000,000' });
const km = z.number().min(0, { error: 'must not be negative' }).max(5_000_000);
const words = plainText.trim().max(120);

/** Something that was replaced. */
export const part = z
  .strictObject({
    kind: z.enum(partKinds),
    what: words.default('').meta({ description: 'number or name of the part' }),
    source: z.enum(['new', 'rebuilt', 'used']),
    supplier: words.default(''),
    run_km: km.nullable().default(null).meta({
      description:
        'what the converter of a used converter or transmission had run before it was fitted here; null where not known',
    }),
    price: money.nullable().default(null).meta({ description: "in the fleet's own currency" }),
    core_deposit: money.nullable().default(null).meta({ description: 'held until the old unit comes back' }),
    core: z.enum(coreStates).default('none'),
  })
  .superRefine(({ kind, source, run_km }, context) => {
    if (run_km !== null && !(source === 'used' && holdsConverter(kind)))
      context.addIssue({
        code: 'custom',
        path: ['run_km'],
        message: 'is for a used converter or transmission alone: leave it out',
      });
  })
  .meta({ id: 'Part' });
export type Part = z.output<typeof part>;

/** What was done about debris in the cooler and its lines. */
export const coolerRecord = z
  .strictObject({
    done: z.enum(['replaced', 'flushed', 'not_done']),
    minutes: z.number().min(0).max(1440).nullable().default(null),
    method: z
      .enum(['pumped_through_filter', 'compressed_air', 'spray_can', 'other'])
      .nullable()
      .default(null)
      .meta({ description: 'compressed air alone and spray cans do not count' }),
    both_directions: z.boolean().default(false),
    filter_clean: z
      .boolean()
      .default(false)
      .meta({ description: 'the catch filter stayed clean at the end' }),
    flow_before_l_min: z.number().min(0).max(100).nullable().default(null),
    flow_after_l_min: z.number().min(0).max(100).nullable().default(null),
    notes: plainLines.max(1000).default(''),
  })
  .meta({ id: 'CoolerRecord' });
export type CoolerRecord = z.output<typeof coolerRecord>;

export const teardown = z
  .strictObject({
    cause: z.enum(causes).nullable().default(null),
    cut_open: z.boolean().default(false).meta({ description: 'the old unit was cut open' }),
    notes: plainLines.max(2000).default(''),
  })
  .meta({ id: 'Teardown' });
export type Teardown = z.output<typeof teardown>;

/** What the shop reports, saved as it goes. */
export const reportContent = z.strictObject({
  parts: z.array(part).max(40).default([]),
  cooler: coolerRecord.nullable().default(null),
  teardown: teardown.default(teardown.parse({})),
});
export type ReportContent = z.output<typeof reportContent>;

export const reportRequest = z
  .strictObject({
    version: z.int().min(1).meta({ description: 'the version that was seen' }),
    ...reportContent.shape,
  })
  .meta({ id: 'ReportRequest' });
export type ReportRequest = z.output<typeof reportRequest>;

export const closeRequest = z
  .strictObject({
    version: z.int().min(1).meta({ description: 'the version that was seen' }),
    outcome: z.enum(outcomes),
    odometer_km: km.meta({ description: 'of the instrument, when the work was done' }),
    work_at: workshopDay.optional().meta({ description: 'when the work was done; now where left out' }),
    ended: z
      .enum(lifeEndings)
      .extract(['failed', 'preventive'])
      .optional()
      .meta({ description: 'how the old converter ended; needed where one was replaced' }),
    old_converter: z
      .strictObject({ fitted_km: km, source: z.enum(lifeSources) })
      .optional()
      .meta({ description: 'the converter removed, where nobody has registered its life' }),
    reason: plainLines
      .max(1000)
      .default('')
      .meta({ description: 'needed where it was declined; else what came of it' }),
    calm_km: z
      .number()
      .min(500)
      .max(50_000)
      .default(5000)
      .meta({ description: 'no fault found, or declined: how far the list is calm unless slip rises' }),
    without_cooler: plainLines
      .max(1000)
      .default('')
      .meta({ description: 'why it is closed without the cooler record that is due; stays visible' }),
    as_measured: z
      .boolean()
      .default(false)
      .meta({ description: 'true after the question about the mileage was answered' }),
  })
  .meta({ id: 'CloseRequest' });
export type CloseRequest = z.output<typeof closeRequest>;

export const closing = z
  .object({
    outcome: z.enum(outcomes),
    at: moment,
    by: z.string(),
    work_at: moment,
    odometer_km: z.number(),
    cause: z.enum(causes).nullable(),
    cause_words: z.string().nullable(),
    reason: z.string(),
    without_cooler: z.string(),
    calm_until_km: z.number().nullable(),
    ended: z
      .enum(lifeEndings)
      .nullable()
      .meta({ description: 'how the old life ended; null where it goes on' }),
    new_life: z.int().nullable().meta({ description: 'number of the life that began; null where none did' }),
  })
  .meta({ id: 'Closing' });
export type Closing = z.infer<typeof closing>;

/** Whether slip after the work is as on healthy vehicles of the platform. */
export const repairCheck = z
  .object({
    state: z.enum(['too_early', 'held', 'not_held', 'unclear']),
    words: z.string(),
    km_since: z.number().nullable(),
    needed_km: z.number(),
    slip_rpm: z.object({ estimate: z.number(), low: z.number(), high: z.number() }).nullable(),
    healthy_rpm: z.object({ usual: z.number(), high: z.number() }).nullable(),
  })
  .meta({ id: 'RepairCheck' });
export type RepairCheck = z.infer<typeof repairCheck>;

export const closed = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('closed'), closing }),
    z.object({ kind: z.literal('asked'), questions: z.array(question) }),
  ])
  .meta({ id: 'Closed', description: 'How it was closed, or questions asked instead' });
export type Closed = z.infer<typeof closed>;

export const coreRequest = z
  .strictObject({
    part: z.int().min(0).meta({ description: 'place of the part in the report, from 0' }),
    core: z.enum(coreStates),
  })
  .meta({ id: 'CoreRequest', description: 'What became of an old unit, also after closing' });
