import { z } from 'zod';
import { readWithSeen, sender } from './intake.ts';
import { fieldError, problem } from './problems.ts';
import { moment } from './readings.ts';

const counts = {
  received: z.int().meta({ description: 'lines received' }),
  stored: z.int().meta({ description: 'readings stored' }),
  duplicate: z.int().meta({ description: 'readings already there, same vehicle and time' }),
  conflicting: z
    .int()
    .meta({ description: 'of the duplicates, those with a different content; the first stays' }),
  refused: z.int().meta({ description: 'lines that could not be a reading; kept' }),
};

const unknownField = z
  .object({
    field: z.string(),
    lines: z.int().meta({ description: 'lines that had it, refused ones aside' }),
  })
  .meta({ id: 'UnknownField' });
export type UnknownField = z.infer<typeof unknownField>;

export const deliveryReply = z
  .object({
    receipt: z.string(),
    ...counts,
    refusals: z.array(fieldError).meta({ description: 'the first 20; all under /api/receipts/{id}' }),
    unknown_fields: z.array(unknownField).meta({
      description:
        'fields of JSON readings that are none of ours, and names of a long layout that the mapping does not take: left out, the first 20',
    }),
    rows: z.int().optional().meta({
      description:
        'long layout: rows that were read. `received` counts the readings that were made of them and the rows that were refused; the others are under unknown_fields',
    }),
  })
  .meta({ id: 'DeliveryReply', description: 'The answer to a delivery, sent after commit' });
export type DeliveryReply = z.infer<typeof deliveryReply>;

export const brokenDelivery = problem.extend({ delivery: deliveryReply.optional() }).meta({
  id: 'BrokenDelivery',
  description: 'Problem document of a body that broke off; `delivery` says what of it was stored before',
});
export type BrokenDelivery = z.infer<typeof brokenDelivery>;

export const refusedLine = z
  .object({
    line: z.int(),
    raw: z.string(),
    errors: z.array(z.object({ field: z.string(), message: z.string() })),
  })
  .meta({ id: 'RefusedLine', description: 'A line as it came, with what was wrong with it' });

export const receipt = z
  .object({
    receipt: z.string(),
    at: moment,
    content_type: z.string(),
    complete: z
      .boolean()
      .meta({ description: 'false where the body broke off: the lines before are stored' }),
    ...counts,
    ended_at: moment.nullable().meta({ description: 'when its last line was stored' }),
    sender: sender.nullable(),
    file: z.string().nullable(),
    refused_open: z.int().meta({ description: 'refused lines that are still to be looked at' }),
    read_with: readWithSeen.meta({ description: 'how its lines are read; null where that was not kept' }),
    refused_lines: z.array(refusedLine),
    refused_lines_total: z.int(),
  })
  .meta({ id: 'Receipt' });
export type Receipt = z.infer<typeof receipt>;
