import type { Database } from '#db/client.ts';
import { depots } from '#db/schema/fleet.ts';
import { usualWeek, type Week } from '#server/contract/calendar.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp, type SetUpOptions, type SetUpOutcome } from '#server/services/fleet/set-up.ts';
import { setUpDepots } from '#server/services/fleet/set-up-depots.ts';

type Input = Record<string, unknown>;

/** The call with JSON takes a whole week; in a file a weekday that is left empty stays as it is. */
export function setUpDepotsByDays(
  context: Context,
  inputs: Input[],
  options: SetUpOptions,
): Promise<SetUpOutcome> {
  return inSetUp(context.db, async (transaction) =>
    setUpDepots({ ...context, db: transaction }, await fillWeeks(transaction, inputs), options),
  );
}

async function fillWeeks(db: Database, inputs: Input[]): Promise<Input[]> {
  if (inputs.every(({ week }) => week === undefined)) return inputs;
  // Not by the ids of the file: nobody has looked yet at whether they are text that storage can hold.
  const rows = await db.select({ id: depots.id, week: depots.week }).from(depots);
  const weeks = new Map<string, Week>(rows.map(({ id, week }) => [id, week]));
  return inputs.map((input) =>
    input.week === undefined
      ? input
      : { ...input, week: { ...(weeks.get(String(input.id)) ?? usualWeek), ...(input.week as object) } },
  );
}
