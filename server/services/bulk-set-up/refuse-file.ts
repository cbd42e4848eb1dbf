import type { FieldError } from '#server/contract/problems.ts';
import type { ProblemCode } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';

/** Of thousands of faults, mostly one told anew, nobody needs more to put the file right. */
const MOST_FAULTS = 1000;

/** The faults of a file, by its lines. */
export function refuseFile(faults: readonly FieldError[], code: ProblemCode = 'invalid_request') {
  const sorted = faults.toSorted((a, b) => (a.line ?? 0) - (b.line ?? 0));
  const [first] = sorted;
  const where = first?.line === undefined ? '' : `Line ${first.line}: `;
  const named = first === undefined || first.field === '' ? '' : `'${first.field}' `;
  const more = sorted.length > 1 ? ` (and ${sorted.length - 1} more)` : '';
  return new SlipdriftError(code, `${where}${named}${first?.message}${more}. Nothing was changed.`, {
    errors: sorted.slice(0, MOST_FAULTS),
  });
}
