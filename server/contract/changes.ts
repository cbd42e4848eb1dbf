import { z } from 'zod';
import { moment } from './readings.ts';
import { actorKinds, changeActions, changeSubjects } from './words.ts';

const content = z.record(z.string(), z.unknown()).nullable();

export const change = z
  .object({
    id: z.int(),
    at: moment,
    actor: z.object({
      kind: z.enum(actorKinds),
      id: z.string().nullable(),
      name: z.string(),
    }),
    from: z.string().nullable().meta({ description: 'network address of the request' }),
    action: z.enum(changeActions),
    subject: z.enum(changeSubjects),
    subject_id: z.string(),
    before: content.meta({ description: 'fields that changed, as they were; null where there was nothing' }),
    after: content.meta({ description: 'the same fields now; null where there is nothing any more' }),
    request: z.string().nullable().meta({ description: 'request id, to find the log entry' }),
  })
  .meta({ id: 'Change' });
export type Change = z.infer<typeof change>;

export const changesQuery = z.object({
  subject: z.enum(changeSubjects).optional(),
  subject_id: z.string().max(200).optional(),
  actor: z.string().max(200).optional().meta({ description: 'part of the name of who did it' }),
  action: z.enum(changeActions).optional(),
  since: moment.optional(),
  until: moment.optional(),
  limit: z.coerce.number().int().min(1).max(1000).default(100),
  before_id: z.coerce
    .number()
    .int()
    .min(1)
    .max(Number.MAX_SAFE_INTEGER)
    .optional()
    .meta({ description: 'changes older than this one: the next page' }),
});
export type ChangesQuery = z.infer<typeof changesQuery>;

export const changes = z
  .object({ total: z.int(), rows: z.array(change) })
  .meta({ id: 'Changes', description: 'Who changed what, newest first; nothing is ever taken out' });
export type Changes = z.infer<typeof changes>;
