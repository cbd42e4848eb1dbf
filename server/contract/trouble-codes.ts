import { z } from 'zod';
import { moment, plainText } from './readings.ts';
import { spellCode } from './spell-code.ts';

const words = plainText.trim().min(1, { error: 'must not be empty' }).max(160);

/** A code as anyone may spell it, brought to its canonical form. */
export const codeName = z
  .string({ error: (issue) => (issue.input === undefined ? 'is missing' : 'must be text') })
  .max(32, { error: 'must have at most 32 characters' })
  .transform((text, context) => {
    const spelled = spellCode(text);
    if (spelled !== null) return spelled.code;
    context.addIssue({
      code: 'custom',
      message: 'must be a trouble code such as P0741, SPN 573 (with any FMI) or SPN 573 FMI 7',
    });
    return z.NEVER;
  })
  .meta({
    description:
      'P0741 as in SAE J2012, SPN 573 or SPN 573 FMI 7 as in SAE J1939; without FMI or failure type it stands for any',
    examples: ['P0741', 'SPN 573 FMI 7'],
  });

export const troubleCodeInput = z
  .object({
    code: codeName,
    meaning: words.optional().meta({ description: 'needed for a new code; shown beside it in brackets' }),
    source: words.optional().meta({ description: 'where the meaning is from' }),
    counts: z
      .boolean()
      .optional()
      .meta({ description: 'false switches a code off without forgetting it; true unless said' }),
  })
  .meta({
    id: 'TroubleCodeInput',
    description: 'A trouble code that names the converter clutch or its solenoid',
  });

export const troubleCode = z
  .object({
    code: z.string(),
    meaning: z.string(),
    source: z.string(),
    counts: z.boolean().meta({ description: 'whether it is evidence: at least book' }),
    changed_at: moment,
  })
  .meta({ id: 'TroubleCode' });
export type TroubleCode = z.infer<typeof troubleCode>;
