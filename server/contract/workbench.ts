import { z } from 'zod';
import { plainText } from './readings.ts';
import { workbenchKinds, workbenchParts } from './workbench-words.ts';

/** Tables that a person may keep. */
export const mostWorkbenchSets = 50;

const columnName = z.string().max(200);

/** What each column of the text stands for, and how its cells are read. */
export const workbenchChoice = z.object({
  kind: z.enum(workbenchKinds),
  columns: z
    .partialRecord(z.enum(workbenchParts), columnName)
    .meta({ description: 'part to the name of a column' }),
  covariates: z.array(columnName).max(10).default([]),
  header: z.boolean().default(true).meta({
    description:
      'whether the first line names the columns; where it does not, they are `column 1`, `column 2` and so on',
  }),
  decimal: z.enum(['point', 'comma']).default('point'),
  event_turned: z
    .boolean()
    .default(false)
    .meta({ description: 'whether 1, yes or true in the column of the event means that it ran on' }),
});
export type WorkbenchChoice = z.infer<typeof workbenchChoice>;

export const workbenchSetInput = z
  .strictObject({
    name: plainText.trim().min(1).max(80),
    text: z
      .string()
      .min(1)
      .max(4_000_000, { error: 'is over 4,000,000 characters: keep it in a file of your own' })
      .meta({ description: 'as it was pasted' }),
    choice: workbenchChoice,
    replace: z
      .boolean()
      .default(false)
      .meta({ description: 'whether a table that you keep under this name gives way' }),
  })
  .meta({ id: 'WorkbenchSetInput' });
export type WorkbenchSetInput = z.output<typeof workbenchSetInput>;

export const workbenchSetLine = z.object({
  id: z.int(),
  name: z.string(),
  kind: z.enum(workbenchKinds),
  stored_at: z.iso.datetime(),
  characters: z.int(),
});
export type WorkbenchSetLine = z.infer<typeof workbenchSetLine>;
export const workbenchSets = z.object({ sets: z.array(workbenchSetLine) }).meta({ id: 'WorkbenchSets' });
export type WorkbenchSets = z.infer<typeof workbenchSets>;

export const workbenchSet = workbenchSetLine
  .extend({ text: z.string(), choice: workbenchChoice })
  .meta({ id: 'WorkbenchSet' });
export type WorkbenchSet = z.infer<typeof workbenchSet>;
