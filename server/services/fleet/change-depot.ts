import { eq } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { depots } from '#db/schema/fleet.ts';
import { type Depot, depotInput } from '#server/contract/fleet.ts';
import { type Element, readElements, refuseSetUp } from './read-elements.ts';

export interface DepotChange {
  /** null where it is new */
  before: Depot | null;
  after: Depot;
}

export const readDepots = (body: unknown, lines?: readonly number[]): Element<Depot>[] =>
  readElements(body, depotInput, (depot) => depot.id, lines);

/** What a depot is, and what it would be once changed: saved and previewed alike. */
export async function findDepotChange(
  db: Database,
  { line, input, value }: Element<Depot>,
): Promise<DepotChange> {
  const [row] = await db.select().from(depots).where(eq(depots.id, value.id));
  if (row === undefined) return { before: null, after: value };
  const before = toDepot(row);
  return { before, after: mergeDepot(line, before, input) };
}

/** Fields left out stay as they are. What is right by itself may not fit what is there. */
function mergeDepot(line: number, before: Depot, input: Record<string, unknown>): Depot {
  const merged = depotInput.safeParse({ ...before, ...input });
  if (merged.success) return merged.data;
  throw refuseSetUp(
    merged.error.issues.map(({ path, message }) => ({ line, field: path.map(String).join('.'), message })),
  );
}

export const toDepot = (row: typeof depots.$inferSelect): Depot => ({
  id: row.id,
  name: row.name,
  bays: row.bays,
  time_zone: row.timeZone,
  week: row.week,
  special_days: row.specialDays,
});
