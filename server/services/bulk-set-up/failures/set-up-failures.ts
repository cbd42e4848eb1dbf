import type { FieldError } from '#server/contract/problems.ts';
import { failureInput } from '#server/contract/set-up-files/failure-input.ts';
import type { Context } from '#server/services/context.ts';
import { readElements, refuseSetUp } from '#server/services/fleet/read-elements.ts';
import { runSetUp, type SetUpOptions, type SetUpOutcome } from '#server/services/fleet/set-up.ts';
import { changeLives, groupByVehicle, lockOwners, storedLives } from '#server/services/fleet/set-up-lives.ts';
import { placeFailures } from './place-failures.ts';

/** Enters changes of converters from the books of a workshop as lives. The same ones again change nothing. */
export async function setUpFailures(
  context: Context,
  body: unknown,
  options: SetUpOptions,
): Promise<SetUpOutcome> {
  const elements = readElements(
    body,
    failureInput,
    (failure) => `change of ${failure.vehicle} at ${failure.odometer_km} km`,
    options.lines,
  );
  return runSetUp(context, options, async (inside) => {
    const keys = await lockOwners(inside, elements);
    const stored = await storedLives(inside.db, [...keys.values()]);
    const faults: FieldError[] = [];
    const lives = [...groupByVehicle(elements)].flatMap(([unit, ofUnit]) => {
      const placed = placeFailures(ofUnit, [...(stored.get(keys.get(unit) ?? 0)?.values() ?? [])]);
      faults.push(...placed.faults);
      return placed.lives;
    });
    if (faults.length > 0) throw refuseSetUp(faults);
    return changeLives(inside, keys, lives);
  });
}
