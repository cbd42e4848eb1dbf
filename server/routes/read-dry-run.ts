import { z } from 'zod';
import { SlipdriftError } from '#server/errors.ts';

export const dryRunQuery = z.object({
  dry_run: z.enum(['true', 'false']).optional().meta({
    description: 'true: says what it would come to, and changes nothing',
  }),
});

/** Anything but the two words is refused: a dry run must never be taken for the real thing. */
export function readDryRun(value: string | undefined): boolean {
  if (value === undefined || value === 'false') return false;
  if (value === 'true') return true;
  const message = 'must be true or false';
  throw new SlipdriftError('invalid_request', `dry_run ${message}. Nothing was changed.`, {
    errors: [{ field: 'dry_run', message }],
  });
}
