import { type Declined, decline } from '#server/engine/declined.ts';
import type { ObservedLife } from './life-model.ts';

/**
 * Whether there are failures enough for a life distribution of two parameters.
 *
 * At least 2 failures at different mileages. With all failures at one mileage the spread of the failures, which is what
 * the second parameter tells, was not seen: where that mileage is the largest of all exits, the likelihood grows without
 * bound as the spread goes to 0; where lives ran on beyond it, a maximum exists, but comes from the censorings alone.
 *
 * @param lives in any order
 * @returns null where there are enough, else declined with what is needed
 * Source: Meeker and Escobar (1998), section 8.3 on existence of the maximum (from memory); own rule for the rest.
 * Edges: no lives decline as no failures. Errors: none.
 * @example refuseFewFailures([{ entry: 0, exit: 3, event: true, count: 1 }]) // declined, needed 'at least 2 failures at different mileages'
 */
export function refuseFewFailures(lives: readonly ObservedLife[]): Declined | null {
  let events = 0;
  let first: number | null = null;
  let beyond = 0;
  for (const { exit, event, count } of lives) {
    if (!event) continue;
    if (first !== null && exit !== first) return null;
    first = exit;
    events += count;
  }
  const needed = 'at least 2 failures at different mileages';
  if (first === null)
    return decline('no failures', needed, `${lives.length === 0 ? 'no lives' : '0 failures'}`);
  for (const { exit } of lives) if (exit > first) beyond++;
  if (events <= 1) return decline('too few failures', needed, '1 failure');
  const reason =
    beyond === 0 ? 'all failures at one mileage: the fit has no maximum' : 'all failures at one mileage';
  return decline(reason, needed, `${events} failures, all at ${first}`);
}
