import type { z } from 'zod';
import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';

/** A request of 100,000 may be wrong at every place: so many faults are named, the rest is counted. */
export const MOST_NAMED = 20;

/** What is wrong, field by field; `within` is the path of what was read. */
export function listFaults(error: z.ZodError, within: readonly string[] = []): FieldError[] {
  return error.issues.flatMap((issue) => {
    const path = [...within, ...issue.path.map(String)];
    const fields = issue.code === 'unrecognized_keys' ? issue.keys : [undefined];
    return fields.map((key) => ({
      field: [...path, ...(key === undefined ? [] : [key])].join('.'),
      message: issue.message,
    }));
  });
}

/** A request that cannot be used as a whole: the first of its faults, and how many there are. */
export function refuseFaults(what: 'series' | 'lives', faults: readonly FieldError[], all: number) {
  const [first] = faults;
  const where = first?.field ? `${first.field} ` : 'the body ';
  const more = all > 1 ? ` (and ${all - 1} more)` : '';
  return new SlipdriftError(
    'invalid_request',
    `The ${what} cannot be used: ${where}${first?.message}${more}. Nothing was computed; correct it and send it again.`,
    { errors: faults.slice(0, MOST_NAMED) },
  );
}
