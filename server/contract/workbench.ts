import { z } from 'zod';
import { plainText } from './readings.ts';

export const workbenchKinds = ['series', 'lives'] as const;
export type WorkbenchKind = (typeof workbenchKinds)[number];

/** Tables that a person may keep. */
export const mostWorkbenchSets = 50;

/** What each column of the text stands for. */
export const workbenchChoice = z.object({
  kind: z.enum(workbenchKinds),
  /** part (x, y, exit, entry, event, mode, group) to the name of a column */
  columns: z.record(z.string().max(20), z.string().max(200)),
  /** whether the first line names the columns; where it does not, they are `column 1`, `column 2` and so on */
  header: z.boolean().default(true),
  covariates: z.array(z.string().max(200)).max(10).default([]),
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
