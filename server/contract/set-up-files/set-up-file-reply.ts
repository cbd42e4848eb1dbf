import { z } from 'zod';
import { setUpReply } from '#server/contract/fleet.ts';
import { changeActions, changeSubjects, setUpKinds } from '#server/contract/words.ts';

/** Of a file of thousands of lines nobody reads more one by one; all are counted. */
export const MOST_SHOWN = 500;

const text = z.string().nullable();

export const setUpFileChange = z
  .object({
    line: z.int().nullable().meta({ description: 'of the file; null for what only follows from others' }),
    subject: z.enum(changeSubjects),
    id: z.string(),
    action: z.enum(changeActions),
    fields: z
      .array(
        z.object({
          field: z.string(),
          before: text.meta({ description: 'as a cell of the file would say it; null for nothing' }),
          after: text,
        }),
      )
      .meta({ description: 'columns that differ' }),
  })
  .meta({ id: 'SetUpFileChange' });
export type SetUpFileChange = z.infer<typeof setUpFileChange>;

export const setUpFileWarning = z
  .object({
    field: z.string(),
    message: z.string(),
    count: z.int().meta({ description: 'lines that it is said of' }),
    lines: z.array(z.int()).meta({ description: 'the first twenty of them' }),
  })
  .meta({ id: 'SetUpFileWarning' });
export type SetUpFileWarning = z.infer<typeof setUpFileWarning>;

export const setUpFileReply = setUpReply
  .extend({
    kind: z.enum(setUpKinds),
    dry_run: z.boolean(),
    lines: z.int().meta({ description: 'lines with data' }),
    changes: z.array(setUpFileChange).meta({ description: `the first ${MOST_SHOWN}` }),
    changes_total: z.int(),
    warnings: z.array(setUpFileWarning).meta({
      description: `what may be wrong and was taken all the same, the first ${MOST_SHOWN}`,
    }),
    warnings_total: z.int(),
  })
  .meta({ id: 'SetUpFileReply', description: 'What a set-up file came to, or would come to' });
export type SetUpFileReply = z.infer<typeof setUpFileReply>;
