import { z } from 'zod';
import { problemCodes } from './words.ts';

export const fieldError = z
  .object({
    line: z.int().optional().meta({ description: 'line of the body, from 1' }),
    field: z.string().meta({ description: 'field at fault, empty where the whole line is' }),
    message: z.string(),
  })
  .meta({ id: 'FieldError' });
export type FieldError = z.infer<typeof fieldError>;

/** RFC 9457 problem document, media type application/problem+json. */
export const problem = z
  .object({
    type: z.string().meta({ description: 'always about:blank; `code` tells the kinds apart' }),
    title: z.string(),
    status: z.int(),
    detail: z.string(),
    code: z.enum(problemCodes),
    errors: z.array(fieldError),
    request: z.string().optional().meta({ description: 'request id, to find the log entry' }),
  })
  .meta({ id: 'Problem', description: 'RFC 9457 problem document' });
export type Problem = z.infer<typeof problem>;
