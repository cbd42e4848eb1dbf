import { inArray } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { findOrAddVehicles } from '#db/queries/find-or-add-vehicles.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { lives, vehicles } from '#db/schema/fleet.ts';
import { lifeInput, type SetUpReply } from '#server/contract/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { type NotedChange, noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { type Life, type LifeRow, mergeLife, orderLives } from './life-rows.ts';
import { isWithin, refuseOtherDepots } from './other-depots.ts';
import { type Element, readElements, refuseSetUp } from './read-elements.ts';
import { actionOf, type Change, changedFields, countChanges, inSetUp } from './set-up.ts';
import { addReach, type Reach, touchFleet } from './touch-fleet.ts';

export async function setUpLives(context: Context, body: unknown): Promise<SetUpReply> {
  const elements = readElements(body, lifeInput, (life) => `life ${life.vehicle} at ${life.fitted_km} km`);
  return inSetUp(context.db, async (transaction) => {
    const inside = { ...context, db: transaction };
    const keys = await lockOf(inside, elements);
    if (context.actor.depots !== null) await refuseVehiclesOfOthers(transaction, context, elements);
    return storeLives(inside, keys, elements);
  });
}

/** Keys of the vehicles that lives are of, locked until the end of the transaction. */
async function lockOf({ db }: Context, elements: readonly Element<Life>[]): Promise<Map<string, number>> {
  const keys = await findOrAddVehicles(db, [...new Set(elements.map(({ value }) => value.vehicle))]);
  await lockVehicles(db, [...keys.values()]);
  return keys;
}

/** Stores lives inside a transaction that has locked their vehicles, whose keys these are, and leaves them to the next assessment. */
export async function storeLives(
  context: Context,
  keys: ReadonlyMap<string, number>,
  elements: Element<Life>[],
): Promise<SetUpReply> {
  const transaction = context.db;
  const stored = await storedLives(transaction, [...keys.values()]);
  const changes: Change[] = [];
  const noted: NotedChange[] = [];
  const reaches = new Map<number, Reach>();
  const errors: FieldError[] = [];
  for (const [unit, ofUnit] of groupByVehicle(elements)) {
    const vehicle = keys.get(unit) ?? 0;
    const before = stored.get(vehicle) ?? new Map<number, LifeRow>();
    const asked = new Map(before);
    for (const { value } of ofUnit)
      asked.set(value.fitted_km, mergeLife(before.get(value.fitted_km), vehicle, value));
    const ordered = orderLives([...asked.values()]);
    for (const overlap of ordered.overlaps) errors.push(tellOverlap(overlap, ofUnit));
    const named = new Set(ofUnit.map(({ value }) => value.fitted_km));
    for (const life of ordered.lives) {
      const change = changeOf(before.get(life.fittedKm), life);
      if (named.has(life.fittedKm)) changes.push(change);
      if (change === 'unchanged') continue;
      await upsert(transaction, life, context.now());
      const found = before.get(life.fittedKm) ?? null;
      noted.push({
        ...actionOf(found),
        subject: 'life',
        subjectId: `${unit} at ${life.fittedKm} km`,
        before: found === null ? null : toContent(found),
        after: toContent(life),
      });
      addReach(reaches, vehicle, 'stretches');
    }
  }
  if (errors.length > 0) throw refuseSetUp(errors);
  await touchFleet(transaction, reaches);
  await noteChanges(transaction, context, noted);
  return countChanges(changes);
}

/** A vehicle that this call has just added has no depot yet, and so belongs to those who work for all. */
async function refuseVehiclesOfOthers(
  transaction: Database,
  context: Context,
  elements: Element<Life>[],
): Promise<void> {
  const units = elements.map(({ value }) => value.vehicle);
  const rows = await transaction
    .select({ unit: vehicles.unit, depot: vehicles.depot })
    .from(vehicles)
    .where(inArray(vehicles.unit, units));
  const depotOf = new Map(rows.map(({ unit, depot }) => [unit, depot]));
  refuseOtherDepots(
    elements
      .filter(({ value }) => !isWithin(context, depotOf.get(value.vehicle) ?? null))
      .map(({ line, value }) => ({
        line,
        field: 'vehicle',
        message: `${value.vehicle} is of no depot that you work for`,
      })),
  );
}

const toContent = ({ vehicle: _, fittedKm, removedKm, fittedAt, removedAt, runKm, ...life }: LifeRow) => ({
  ...life,
  ...(runKm === null ? {} : { run_km: runKm }),
  fitted_km: fittedKm,
  removed_km: removedKm,
  fitted_at: fittedAt?.toISOString() ?? null,
  removed_at: removedAt?.toISOString() ?? null,
});

function changeOf(before: LifeRow | undefined, after: LifeRow): Change {
  if (before === undefined) return 'created';
  return changedFields(before, after).length > 0 ? 'changed' : 'unchanged';
}

async function upsert(transaction: Database, life: LifeRow, changedAt: Date): Promise<void> {
  const set = { ...life, changedAt };
  await transaction
    .insert(lives)
    .values(set)
    .onConflictDoUpdate({ target: [lives.vehicle, lives.fittedKm], set });
}

async function storedLives(
  transaction: Database,
  keys: number[],
): Promise<Map<number, Map<number, LifeRow>>> {
  const byVehicle = new Map<number, Map<number, LifeRow>>();
  for (const { changedAt: _, ...life } of await transaction
    .select()
    .from(lives)
    .where(inArray(lives.vehicle, keys))) {
    const ofVehicle = byVehicle.get(life.vehicle) ?? new Map<number, LifeRow>();
    ofVehicle.set(life.fittedKm, life);
    byVehicle.set(life.vehicle, ofVehicle);
  }
  return byVehicle;
}

function groupByVehicle(elements: Element<Life>[]): Map<string, Element<Life>[]> {
  const groups = new Map<string, Element<Life>[]>();
  for (const element of elements)
    groups.set(element.value.vehicle, [...(groups.get(element.value.vehicle) ?? []), element]);
  return groups;
}

/** Told at the element of this request that brought it; the other life may have been there before. */
function tellOverlap([earlier, later]: [LifeRow, LifeRow], elements: Element<Life>[]): FieldError {
  const find = (life: LifeRow) => elements.find(({ value }) => value.fitted_km === life.fittedKm);
  const atLater = find(later);
  const element = atLater ?? find(earlier);
  return {
    line: element?.line ?? 1,
    field: atLater === undefined ? 'removed_km' : 'fitted_km',
    message: `overlaps: the life of ${element?.value.vehicle} fitted at ${earlier.fittedKm} km ends at ${earlier.removedKm} km, and the next is fitted at ${later.fittedKm} km`,
  };
}
