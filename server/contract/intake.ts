import { z } from 'zod';
import { fileUnits, given, mapping } from './mappings.ts';
import { fieldError } from './problems.ts';
import { moment, plainLines, plainText, readingFields, vehicleUnit } from './readings.ts';
import { lineStates, setAsideReasons, vehicleLacks } from './words.ts';

const count = z.int().min(0);
const page = {
  limit: z.coerce.number().int().min(1).max(500).default(50),
  offset: z.coerce.number().int().min(0).max(1_000_000).default(0),
};
const flag = z.enum(['true', 'false']).optional();

export const senderKinds = ['key', 'person', 'program'] as const;

export const sender = z
  .object({
    id: z.string().meta({ description: 'stays the same while the name changes; what filters take' }),
    kind: z.enum(senderKinds),
    name: z.string(),
  })
  .meta({ id: 'Sender', description: 'Who brought readings: a key, a person, or a part of the program' });
export type Sender = z.infer<typeof sender>;

const senderId = plainText.max(300);

/** `not_ended`: it comes in at this moment, or its program went away and nobody sent it again. */
const receiptStates = ['whole', 'broke_off', 'not_ended'] as const;

export const receiptFormats = ['json', 'ndjson', 'csv', 'can', 'corrected', 'other'] as const;
export type ReceiptFormat = (typeof receiptFormats)[number];

export const receiptsQuery = z.object({
  sender: senderId.optional(),
  q: plainText.max(200).optional().meta({ description: 'part of the name of the file or topic' }),
  with_refused: flag.meta({ description: 'true: only with refused lines' }),
  incomplete: flag.meta({ description: 'true: only those that broke off or have not ended' }),
  ...page,
});
export type ReceiptsQuery = z.infer<typeof receiptsQuery>;

const counts = { received: count, stored: count, duplicate: count, conflicting: count, refused: count };

export const listedReceipt = z
  .object({
    receipt: z.string(),
    at: moment,
    seconds: z.number().nullable().meta({ description: 'until its last line was stored' }),
    sender: sender.nullable(),
    format: z.enum(receiptFormats),
    file: z.string().nullable(),
    state: z.enum(receiptStates),
    ...counts,
    refused_open: count.meta({ description: 'refused lines that are still to be looked at' }),
  })
  .meta({ id: 'ListedReceipt' });
export type ListedReceipt = z.infer<typeof listedReceipt>;

export const receipts = z
  .object({
    rows: z.array(listedReceipt),
    more: z.boolean().meta({ description: 'whether older ones follow' }),
    senders: z.array(sender).meta({ description: 'all who ever brought a delivery' }),
  })
  .meta({ id: 'Receipts' });
export type Receipts = z.infer<typeof receipts>;

/** How the lines of a receipt are read, for whoever looks at it. */
export const readWithSeen = z
  .union([
    z.object({ form: z.literal('json') }),
    z.object({ form: z.literal('csv'), columns: z.array(z.string().nullable()) }),
    z.object({ form: z.literal('mapped'), mapping, given, header: z.array(z.string()) }),
  ])
  .nullable();

const throughputCounts = {
  deliveries: count,
  received: count,
  stored: count,
  duplicate: count,
  refused: count,
};

export const throughputQuery = z.object({
  zone: z.string().max(64).default('UTC').meta({ description: 'IANA time zone that days are of' }),
});

export const throughput = z
  .object({
    zone: z.string(),
    hours: z.array(z.object({ from: moment, ...throughputCounts })).meta({
      description: 'the last 48 whole hours and the one that runs',
    }),
    days: z.array(z.object({ day: z.iso.date(), ...throughputCounts })).meta({
      description: 'the last 60 days, today included',
    }),
  })
  .meta({ id: 'Throughput', description: 'Lines by the moment at which their delivery began' });
export type Throughput = z.infer<typeof throughput>;

const fault = plainText.max(500).meta({ description: 'as the groups of GET /api/refused name it' });
const which = {
  receipt: z.guid({ error: 'must be the id of a receipt' }).optional(),
  sender: senderId.optional(),
};

export const faultsQuery = z.object({ ...which, state: z.enum(lineStates).default('open') });
export type FaultsQuery = z.infer<typeof faultsQuery>;

const lineFault = z.object({ field: z.string(), message: z.string() });

export const faultGroup = z
  .object({
    fault: z.string(),
    field: z.string(),
    message: z.string(),
    lines: count,
    receipts: count,
    senders: z.array(sender),
    first_at: moment,
    newest_at: moment,
    example: z.object({ id: z.int(), line: z.int(), raw: z.string() }),
  })
  .meta({ id: 'FaultGroup', description: 'Refused lines with the same first fault' });
export type FaultGroup = z.infer<typeof faultGroup>;

export const faults = z
  .object({
    total: count.meta({ description: 'lines in all groups' }),
    groups: z.array(faultGroup).meta({ description: 'most lines first, at most 200' }),
  })
  .meta({ id: 'Faults' });
export type Faults = z.infer<typeof faults>;

export const refusedLinesQuery = z.object({
  fault: fault.optional(),
  ...which,
  state: z.enum(lineStates).optional().meta({ description: 'all, where left out' }),
  after_id: z.coerce.number().int().min(0).max(Number.MAX_SAFE_INTEGER).optional().meta({
    description: 'lines after this one: the next page',
  }),
  limit: z.coerce.number().int().min(1).max(500).default(50),
});
export type RefusedLinesQuery = z.infer<typeof refusedLinesQuery>;

const fields = z.record(z.string(), z.unknown());

export const keptLine = z
  .object({
    id: z.int(),
    receipt: z.string(),
    sender: sender.nullable(),
    file: z.string().nullable(),
    line: z.int(),
    raw: z.string(),
    errors: z.array(lineFault),
    fault: z.string(),
    at: moment,
    state: z.enum(lineStates),
    settled_at: moment.nullable(),
    settled_by: z.string().nullable(),
    let_in_receipt: z.string().nullable(),
    readable: z.boolean().meta({
      description: 'whether its text can be read again; else its fields are given with `reading`',
    }),
    reading: fields.nullable().meta({ description: 'the fields that could be read of it' }),
  })
  .meta({ id: 'KeptLine', description: 'A line that was refused, as it came' });
export type KeptLine = z.infer<typeof keptLine>;

export const keptLines = z
  .object({ total: count, rows: z.array(keptLine) })
  .meta({ id: 'KeptLines', description: 'Oldest first' });
export type KeptLines = z.infer<typeof keptLines>;

const settledCounts = { stored: count, duplicate: count, conflicting: count };

export const correction = z
  .union([
    z.object({ raw: z.string().max(65_536).meta({ description: 'read as its delivery was' }) }).strict(),
    z.object({ reading: fields.meta({ description: 'a reading as POST /api/readings takes it' }) }).strict(),
  ])
  .meta({ id: 'Correction' });
export type Correction = z.infer<typeof correction>;

export const letIn = z
  .object({ receipt: z.string(), let_in: count, ...settledCounts })
  .meta({ id: 'LetIn', description: 'What became of lines that were let in, under a receipt of their own' });
export type LetIn = z.infer<typeof letIn>;

export const lineStateChange = z
  .object({
    ids: z.array(z.int().min(1)).min(1).max(1000).optional(),
    fault: fault.optional(),
    ...which,
    state: z.enum(['open', 'laid_aside']),
    note: plainLines.pipe(z.string().max(500)).default(''),
  })
  .refine(({ ids, fault: named }) => (ids === undefined) !== (named === undefined), {
    path: ['ids'],
    error: 'or fault must be given, and not both',
  })
  .meta({ id: 'LineStateChange' });
export type LineStateChange = z.output<typeof lineStateChange>;

export const lineStateReply = z.object({ changed: count }).meta({ id: 'LineStateReply' });
export type LineStateReply = z.infer<typeof lineStateReply>;

const ruleField = z.string().refine((name) => readingFields.includes(name), {
  error: 'must be a field of a reading',
});
const neededFields = ['vehicle', 'at', 'duty_pct'];

export const ruleKinds = ['leave_out', 'take_value', 'unit', 'reckon', 'zone', 'replace'] as const;
export type RuleKind = (typeof ruleKinds)[number];

/** What is done to each line with the same fault before it is checked again. */
export const lineRule = z
  .discriminatedUnion('kind', [
    z.object({
      kind: z.literal('leave_out'),
      field: ruleField.refine((name) => !neededFields.includes(name), {
        error: 'cannot be left out: every reading needs it',
      }),
    }),
    z.object({
      kind: z.literal('take_value'),
      field: ruleField,
      value: z.union([z.number(), plainText.max(64), z.boolean(), z.array(plainText.max(32)).max(64)]),
    }),
    z.object({ kind: z.literal('unit'), field: ruleField, unit: z.enum(fileUnits) }),
    z.object({
      kind: z.literal('reckon'),
      field: ruleField,
      times: z.number().min(-1e6).max(1e6).default(1),
      plus: z.number().min(-1e7).max(1e7).default(0),
    }),
    z.object({
      kind: z.literal('zone'),
      zone: z.string().min(1).max(64).meta({ description: 'IANA time zone, or an offset such as +02:00' }),
    }),
    z.object({
      kind: z.literal('replace'),
      find: plainText.min(1).max(64).meta({ description: "text in the vehicle's name" }),
      with: plainText.max(64),
    }),
  ])
  .meta({ id: 'LineRule' });
export type LineRule = z.output<typeof lineRule>;

export const ruleRequest = z
  .object({ fault, ...which, rule: lineRule, dry_run: z.boolean().default(true) })
  .meta({ id: 'RuleRequest' });
export type RuleRequest = z.output<typeof ruleRequest>;

export const ruleReply = z
  .object({
    dry_run: z.boolean(),
    lines: count.meta({ description: 'open lines with this fault' }),
    good: count.meta({ description: 'of them, those that are readings by this rule' }),
    faults: z.array(z.object({ fault: z.string(), lines: count })).meta({
      description: 'why the others stay open, most first, at most 20',
    }),
    examples: z
      .array(
        z.object({
          id: z.int(),
          line: z.int(),
          raw: z.string(),
          reading: fields.nullable(),
          errors: z.array(fieldError),
        }),
      )
      .meta({ description: 'the first twenty, as the rule makes them' }),
    let_in: count,
    ...settledCounts,
    receipt: z.string().nullable(),
  })
  .meta({ id: 'RuleReply', description: 'What a rule comes to; with dry_run nothing was changed' });
export type RuleReply = z.infer<typeof ruleReply>;

export const gateway = z
  .object({
    sender,
    right: z.string().nullable().meta({ description: 'of its key' }),
    ended_at: moment.nullable().meta({ description: 'when its key was revoked or expired' }),
    last_at: moment.nullable().meta({ description: 'of its last delivery' }),
    usual_s: z.number().nullable().meta({
      description: 'between deliveries: the median of the last 50; null before there are five',
    }),
    quiet_after_s: z.number().nullable().meta({ description: 'silence after which it counts as quiet' }),
    quiet: z.boolean(),
    vehicles: count.meta({
      description: 'that it brought readings of in the four weeks before its last delivery',
    }),
    readings_per_day: z.number().meta({ description: 'stored, over the last seven days' }),
    refused_share: z.number().nullable().meta({ description: 'of the lines of the last seven days' }),
  })
  .meta({ id: 'Gateway' });
export type Gateway = z.infer<typeof gateway>;

export const quietVehicle = z
  .object({
    vehicle: z.string(),
    sender,
    last_reading_at: moment,
    days: z.number().meta({ description: 'without a reading' }),
    at_shop: z.boolean(),
  })
  .meta({ id: 'QuietVehicle' });

export const gateways = z
  .object({
    as_of: moment,
    rule: z.string().meta({ description: 'when a gateway or a vehicle counts as quiet, in words' }),
    counts_from: moment.nullable().meta({
      description: 'since when it is counted which vehicle reports through whom',
    }),
    gateways: z.array(gateway).meta({ description: 'quiet ones first, the longest first' }),
    vehicles: z.array(quietVehicle).meta({
      description: 'gone quiet though their gateway goes on, the longest first, at most 500',
    }),
    vehicles_total: count,
  })
  .meta({ id: 'Gateways' });
export type Gateways = z.infer<typeof gateways>;

export const setAsideShares = z
  .object({
    months: z.array(z.string()).meta({ description: 'YYYY-MM, the oldest first' }),
    gateways: z.array(
      z.object({
        sender,
        months: z.array(
          z.object({
            month: z.string(),
            readings: count,
            set_aside: z.partialRecord(z.enum(setAsideReasons), count),
          }),
        ),
      }),
    ),
  })
  .meta({
    id: 'SetAsideShares',
    description:
      'Readings set aside by month, reason and the gateway that brought most of the vehicle in that month',
  });
export type SetAsideShares = z.infer<typeof setAsideShares>;

export const toCompleteQuery = z.object({
  lack: z.enum(vehicleLacks).optional(),
  q: plainText.max(64).optional().meta({ description: 'part of the unit number' }),
  ...page,
});
export type ToCompleteQuery = z.infer<typeof toCompleteQuery>;

export const toComplete = z
  .object({
    total: count,
    by_lack: z.object({ registered: count, depot: count, platform: count, vin: count }),
    rows: z.array(
      z.object({
        vehicle: z.string(),
        lacks: z
          .array(z.enum(vehicleLacks))
          .meta({ description: 'registered: known from its readings alone' }),
        depot: z.string().nullable(),
        platform: z.string().nullable(),
        vin: z.string().nullable(),
        vin_warning: z.string().nullable(),
        first_reading_at: moment.nullable(),
        last_reading_at: moment.nullable(),
        odometer_km: z.number().nullable(),
      }),
    ),
  })
  .meta({ id: 'VehiclesToComplete' });
export type ToComplete = z.infer<typeof toComplete>;

export const odometerAnswer = z.enum(['changed', 'misread']).meta({
  description: 'changed: the instrument was changed or set; misread: its figures were wrong for a while',
});
export type OdometerAnswer = z.infer<typeof odometerAnswer>;

export const odometerQuestionsQuery = z.object({
  answered: flag.meta({ description: 'true: those with an answer; else those without' }),
  ...page,
});
export type OdometerQuestionsQuery = z.infer<typeof odometerQuestionsQuery>;

export const odometerQuestion = z
  .object({
    vehicle: z.string(),
    at: moment,
    before_km: z.number().nullable().meta({ description: 'the last figure before; null where dropped' }),
    after_km: z.number().nullable(),
    jump_km: z.number().meta({ description: 'by which the figures jumped' }),
    offset_km: z
      .number()
      .meta({ description: 'added to every figure from here on, so that the tracks join' }),
    answer: z
      .object({
        answer: odometerAnswer,
        note: z.string(),
        at: moment,
        answered_at: moment,
        answered_by: z.string(),
      })
      .nullable(),
  })
  .meta({ id: 'OdometerQuestion', description: 'A step of an odometer' });
export type OdometerQuestion = z.infer<typeof odometerQuestion>;

export const odometerQuestions = z
  .object({ total: count, rows: z.array(odometerQuestion) })
  .meta({ id: 'OdometerQuestions', description: 'Newest first' });
export type OdometerQuestions = z.infer<typeof odometerQuestions>;

export const odometerAnswerInput = z
  .object({
    vehicle: vehicleUnit,
    at: moment,
    answer: odometerAnswer.nullable().meta({ description: 'null takes the answer back' }),
    note: plainLines.pipe(z.string().max(500)).default(''),
  })
  .meta({ id: 'OdometerAnswerInput' });
export type OdometerAnswerInput = z.output<typeof odometerAnswerInput>;
