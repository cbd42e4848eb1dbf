import { z } from 'zod';
import { moment, plainLines, plainText } from './readings.ts';
import { causes, findingResults, testSteps, verdicts } from './words.ts';

const figure = (low: number, high: number, unit: string) =>
  z
    .number({ error: (issue) => (issue.input === undefined ? 'is missing' : `must be a number in ${unit}`) })
    .min(low, { error: `must be at least ${low} ${unit}` })
    .max(high, { error: `must be at most ${high} ${unit}` });

const notes = plainLines.max(1000).default('').meta({ description: 'what else was noticed' });
const asMeasured = z.boolean().default(false).meta({
  description: 'true after a question was answered: the figures stand as they are',
});

export const fluidInput = z
  .strictObject({
    step: z.literal('fluid'),
    level: z.enum(['low', 'right', 'high', 'not_checked']),
    colour: z.enum(['red', 'amber', 'brown', 'black', 'milky']),
    smell: z.enum(['usual', 'burnt']),
    notes,
  })
  .meta({ id: 'FluidInput' });

/** What somebody read off an instrument on the road, where no trace was recorded. */
export const roadTestInput = z
  .strictObject({
    step: z.literal('road_test'),
    duty_pct: figure(0, 100, '%'),
    slip_rpm: figure(-6000, 6000, 'rpm'),
    seconds: figure(1, 3600, 's').meta({ description: 'how long command and speed were held' }),
    falls: z.boolean().meta({ description: 'slip fell while the command was held' }),
    notes,
    as_measured: asMeasured,
  })
  .meta({ id: 'RoadTestInput' });

/** Currents have no sign limit here: a negative one is asked about, as is one in milliamps. */
export const solenoidCurrentInput = z
  .strictObject({
    step: z.literal('solenoid_current'),
    off_a: figure(-10_000, 10_000, 'A').meta({ description: 'at the fuse, commanded off' }),
    on_a: figure(-10_000, 10_000, 'A').meta({ description: 'at the fuse, commanded on' }),
    supply_v: figure(5, 60, 'V').optional().meta({ description: "measured; the platform's where left out" }),
    click: z.enum(['heard', 'not_heard', 'not_listened']).default('not_listened'),
    notes,
    as_measured: asMeasured,
  })
  .meta({ id: 'SolenoidCurrentInput' });

export const pressureInput = z
  .strictObject({
    step: z.literal('pressure'),
    place: z.enum(['line', 'cooler_line', 'clutch_port']),
    unit: z.enum(['bar', 'kpa', 'psi']).default('bar'),
    off: figure(-100, 10_000, 'bar, kPa or psi').meta({ description: 'solenoid commanded off' }),
    on: figure(-100, 10_000, 'bar, kPa or psi').meta({ description: 'solenoid commanded on' }),
    smallest_step: figure(0.001, 1000, 'bar, kPa or psi').meta({
      description: 'the smallest difference that the gauge shows',
    }),
    notes,
    as_measured: asMeasured,
  })
  .meta({ id: 'PressureInput' });

export const panInput = z
  .strictObject({
    step: z.literal('pan'),
    debris: z.enum(['none', 'fine', 'lining', 'metal']),
    notes,
  })
  .meta({ id: 'PanInput' });

export const coolerInput = z
  .strictObject({
    step: z.literal('cooler'),
    litres: figure(0, 100, 'L').meta({ description: 'caught from the return line' }),
    seconds: figure(5, 600, 's').meta({ description: 'time of catching, engine idling' }),
    notes,
    as_measured: asMeasured,
  })
  .meta({ id: 'CoolerInput' });

export const findingInput = z
  .discriminatedUnion('step', [
    fluidInput,
    roadTestInput,
    solenoidCurrentInput,
    pressureInput,
    panInput,
    coolerInput,
  ])
  .meta({ id: 'FindingInput', description: 'What was seen or measured in one test step' });
export type FindingInput = z.output<typeof findingInput>;

/** Something in the input that may be a slip of the pen. Nothing is stored until it is answered. */
export const question = z
  .object({
    field: z.string(),
    message: z.string().meta({ description: 'the question, in words' }),
    suggestion: z
      .record(z.string(), z.union([z.number(), z.string(), z.boolean()]))
      .nullable()
      .meta({ description: 'fields as they would be if the answer is yes; null where there is none' }),
    suggestion_says: z.string().nullable().meta({ description: 'that answer in a few words, for a button' }),
  })
  .meta({ id: 'StepQuestion' });
export type StepQuestion = z.infer<typeof question>;

/** What the input of a step comes to, and by what rule. */
export const judgement = z.object({
  result: z.enum(findingResults),
  verdict: z.enum(verdicts),
  words: z.string().meta({ description: 'what was found, as a sentence' }),
  rule: z.string().meta({ description: 'the rule that judged it, with its figures and where it is from' }),
  look_next: z.array(z.string()).meta({ description: 'what to look at next, in order' }),
});
export type Judgement = z.infer<typeof judgement>;

export const finding = z
  .object({
    id: z.int(),
    step: z.enum(testSteps),
    at: moment,
    by: z.string(),
    odometer_km: z.number().nullable().meta({ description: 'of the last reading then' }),
    ...judgement.shape,
    shown: z
      .array(z.object({ label: z.string(), value: z.string() }))
      .meta({ description: 'the input in words and units' }),
    notes: z.string(),
    trace: z.boolean().meta({ description: 'a recorded trace is behind it' }),
  })
  .meta({ id: 'Finding' });
export type Finding = z.infer<typeof finding>;

/** One place of the decision tree: a step to do, or what the findings come to. */
export const treeNode = z
  .object({
    id: z.string(),
    step: z.enum(testSteps).nullable().meta({ description: 'null at an end' }),
    title: z.string(),
    branches: z.array(
      z.object({
        results: z.array(z.enum(findingResults)),
        says: z.string().meta({ description: 'the results in a few words' }),
        to: z.string().meta({ description: 'id of a node' }),
      }),
    ),
    end: z
      .object({
        words: z.string().meta({ description: 'what the findings are consistent with' }),
        work: z.enum(['none', 'outside', 'valve_body', 'converter']).meta({
          description: 'where to work: without opening, valve body with the transmission in place, converter',
        }),
        removes_transmission: z.boolean(),
        causes: z.array(z.enum(causes)).meta({ description: 'to look for first' }),
      })
      .nullable(),
  })
  .meta({ id: 'TreeNode' });
export type TreeNode = z.infer<typeof treeNode>;

/** A recorded road test, thinned for drawing. */
export const roadTrace = z
  .object({
    seconds: z.array(z.number()),
    slip_rpm: z.array(z.number().nullable()),
    duty_pct: z.array(z.number().nullable()),
    steady: z.array(
      z.object({
        from_s: z.number(),
        to_s: z.number(),
        duty_pct: z.number(),
        slip_rpm: z.number().meta({ description: 'median' }),
        slope_rpm_per_s: z.number(),
        fluid_c: z.number().nullable(),
      }),
    ),
    set_aside: z.array(
      z.object({
        from_s: z.number(),
        to_s: z.number(),
        reason: z.string().meta({ description: 'a reason of the gate, short, or gap' }),
        says: z.string(),
      }),
    ),
    gaps: z.array(z.object({ from_s: z.number(), to_s: z.number() })),
    healthy: z
      .array(
        z.object({ duty_pct: z.number(), low_rpm: z.number(), usual_rpm: z.number(), high_rpm: z.number() }),
      )
      .meta({ description: "the platform's healthy range by command; empty where nothing was learned yet" }),
    limit_rpm: z.number(),
    reference_duty_pct: z.number(),
    rows: z.int(),
    seconds_between_rows: z.number().meta({ description: 'median' }),
    told: z.array(z.string()).meta({ description: 'what was noticed of the file, in words' }),
    file: z.object({ name: plainText, bytes: z.int(), columns: z.record(z.string(), z.string()) }),
  })
  .meta({ id: 'RoadTrace' });
export type RoadTrace = z.infer<typeof roadTrace>;

export const recorded = z
  .discriminatedUnion('kind', [
    z.object({ kind: z.literal('stored'), finding }),
    z.object({ kind: z.literal('asked'), questions: z.array(question) }),
  ])
  .meta({
    id: 'Recorded',
    description: 'The finding, or questions that were asked instead of storing anything',
  });
export type Recorded = z.infer<typeof recorded>;
