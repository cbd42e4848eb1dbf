import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';

/** No row of a body can be read with this mapping and what was given; nothing of it was stored. */
export class LackingError extends SlipdriftError {
  constructor(errors: FieldError[]) {
    const [first] = errors;
    const more = errors.length > 1 ? ` (and ${errors.length - 1} more)` : '';
    super(
      'invalid_request',
      `The file cannot be read by this mapping: ${first?.field} ${first?.message}${more}. Nothing of it was stored.`,
      { errors },
    );
  }
}
