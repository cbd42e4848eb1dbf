import { z } from 'zod';
import { moment, plainText } from './readings.ts';

/** Grades that a vehicle can worsen to. */
export const toldGrades = ['hold', 'book', 'watch'] as const;
export type ToldGrade = (typeof toldGrades)[number];

const name = plainText
  .pipe(z.string().trim().min(1).max(120))
  .meta({ description: 'which program it leads to' });
const told = z
  .array(z.enum(toldGrades))
  .min(1, { error: 'must name one grade at least' })
  .transform((grades) => toldGrades.filter((grade) => grades.includes(grade)))
  .meta({ description: 'told of vehicles that worsen to one of these' });

export const webhookInput = z
  .strictObject({
    name,
    url: plainText.pipe(z.string().trim().min(1).max(2000)).meta({
      description:
        'https, or http to this machine, to a private address, or to a name that only an inner network knows',
    }),
    grades: told.default([...toldGrades]),
  })
  .meta({ id: 'WebhookInput' });
export type WebhookInput = z.output<typeof webhookInput>;

export const webhookChange = z
  .strictObject({
    name: name.optional(),
    url: webhookInput.shape.url.optional(),
    grades: told.optional(),
    paused: z
      .boolean()
      .optional()
      .meta({ description: 'true: nothing is sent; events wait until it goes on' }),
  })
  .meta({ id: 'WebhookChange' });
export type WebhookChange = z.output<typeof webhookChange>;

/** `given_up`: it is not tried again by itself. */
const webhookPostStates = ['waiting', 'given', 'given_up'] as const;

const lastResult = {
  last_at: moment.nullable().meta({ description: 'of the last try' }),
  last_status: z.int().nullable().meta({ description: 'of its answer; null where none came' }),
  last_fault: z
    .string()
    .nullable()
    .meta({ description: 'what went wrong, in words; null where nothing did' }),
};

export const webhook = z
  .object({
    id: z.int(),
    name: z.string(),
    url: z.string(),
    grades: z.array(z.enum(toldGrades)),
    state: z.enum(['active', 'paused', 'ended']),
    warning: z.string().nullable().meta({ description: 'what to know of this address' }),
    created_at: moment,
    created_by: z.string(),
    ended_at: moment.nullable(),
    waiting: z.int(),
    given: z.int(),
    given_up: z.int(),
    ...lastResult,
  })
  .meta({ id: 'Webhook' });
export type Webhook = z.infer<typeof webhook>;

export const newWebhook = z
  .object({
    webhook,
    secret: z.string().meta({ description: 'key of the signatures; shown this once' }),
  })
  .meta({ id: 'NewWebhook' });
export type NewWebhook = z.infer<typeof newWebhook>;

const distance = z.object({
  p10: z.number().nullable(),
  p50: z.number().nullable(),
  p90: z.number().nullable(),
});

/** What is kept of an event when the grade changes. The link is added as it is sent: it follows a setting. */
export const webhookEvent = z
  .object({
    event: z.uuid().meta({ description: 'the same in every try' }),
    type: z.enum(['grade_worsened', 'trial']),
    at: moment,
    vehicle: z.string(),
    depot: z.string().nullable(),
    platform: z.string().nullable(),
    from: z.string().nullable().meta({ description: 'grade before; null where it had none' }),
    to: z.string(),
    odometer_km: z.number().nullable(),
    reasons: z.array(z.string()),
    km_to_limit: distance,
    chance_within_horizon: z.number().nullable(),
    horizon_km: z.number(),
  })
  .meta({ id: 'WebhookEvent' });
export type WebhookEvent = z.infer<typeof webhookEvent>;

export const webhookPost = z
  .object({
    id: z.uuid(),
    event: webhookEvent,
    state: z.enum(webhookPostStates),
    tries: z.int(),
    next_at: moment.nullable().meta({ description: 'when it is tried next' }),
    ...lastResult,
  })
  .meta({ id: 'WebhookPost' });
export type WebhookPost = z.infer<typeof webhookPost>;

export const webhookPosts = z.object({ total: z.int(), rows: z.array(webhookPost) }).meta({
  id: 'WebhookPosts',
  description: 'Events of one webhook, newest first',
});
export type WebhookPosts = z.infer<typeof webhookPosts>;

export const webhookPostsQuery = z.object({
  limit: z.coerce.number().int().min(1).max(200).default(50),
  offset: z.coerce.number().int().min(0).max(10_000_000).default(0),
});
export type WebhookPostsQuery = z.output<typeof webhookPostsQuery>;
