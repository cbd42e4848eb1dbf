import type { FieldError } from '#server/contract/problems.ts';
import { SlipdriftError } from '#server/errors.ts';
import type { Context } from '#server/services/context.ts';

/** Whether the one who asks works for the depot; for a vehicle of none, whether for all of them. */
export const isWithin = ({ actor }: Pick<Context, 'actor'>, depot: string | null): boolean =>
  actor.depots === null || (depot !== null && actor.depots.includes(depot));

export function refuseOtherDepots(errors: FieldError[]): void {
  const [first] = errors;
  if (first === undefined) return;
  const more = errors.length > 1 ? ` (and ${errors.length - 1} more)` : '';
  throw new SlipdriftError(
    'not_allowed',
    `Element ${first.line}: ${first.message}${more}. Nothing was changed.`,
    {
      errors,
    },
  );
}
