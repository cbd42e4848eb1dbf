import { type Database, rawClient } from '#db/client.ts';

/**
 * A delivery that ended midway has come again: of its refused lines `from` to `to`, keeps those of the latest try, which
 * are stored already, and drops the same lines of earlier ones, and what an earlier end had cut off. `cutLine` is where
 * the latest try itself was cut. A line that has not come again stays.
 */
export async function dropRepeatedRefusals(
  transaction: Database,
  receipt: string,
  { from, to, cutOff, cutLine }: { from: number; to: number; cutOff: string; cutLine: number | null },
): Promise<void> {
  await rawClient(transaction)`
    delete from refused_lines old
    where old.receipt = ${receipt} and old.line between ${from} and ${to} and (
      (old.line is distinct from ${cutLine}::integer
        and old.errors @> ${JSON.stringify([{ message: cutOff }])}::text::jsonb)
      or exists (
        select from refused_lines new
        where new.receipt = old.receipt and new.line = old.line and new.id > old.id
          and (new.raw = old.raw or old.errors @> ${JSON.stringify([{ message: cutOff }])}::text::jsonb)))`;
}
