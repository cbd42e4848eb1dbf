import { getTableColumns, inArray, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { findOrAddVehicles } from '#db/queries/find-or-add-vehicles.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { lives, vehicles } from '#db/schema/fleet.ts';
import { lifeInput } from '#server/contract/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { type Life, type LifeRow, mergeLife, orderLives } from './life-rows.ts';
import { isWithin, refuseOtherDepots } from './other-depots.ts';
import { type Element, readElements, refuseSetUp } from './read-elements.ts';
import {
  actionOf,
  type Change,
  changedFields,
  runSetUp,
  type SetUpChange,
  type SetUpOptions,
  type SetUpOutcome,
  type SetUpWork,
} from './set-up.ts';
import { addReach, type Reach, touchFleet } from './touch-fleet.ts';

export async function setUpLives(
  context: Context,
  body: unknown,
  options: SetUpOptions = {},
): Promise<SetUpOutcome> {
  const keyOf = (life: Life) => `life ${life.vehicle} at ${life.fitted_km} km`;
  const elements = readElements(body, lifeInput, keyOf, options.lines);
  return runSetUp(context, options, async (inside) =>
    changeLives(inside, await lockOwners(inside, elements), elements),
  );
}

/**
 * Keys of the vehicles that lives are of, locked until the end of the transaction. A vehicle that is not known is added:
 * it has no depot yet, and so belongs to those who work for all.
 */
export async function lockOwners(
  inside: Context,
  elements: readonly Element<{ vehicle: string }>[],
): Promise<Map<string, number>> {
  const keys = await findOrAddVehicles(inside.db, [...new Set(elements.map(({ value }) => value.vehicle))]);
  await lockVehicles(inside.db, [...keys.values()]);
  if (inside.actor.depots !== null) await refuseVehiclesOfOthers(inside, elements);
  return keys;
}

/** Stores lives inside a transaction that has locked their vehicles, whose keys these are, and leaves them to the next assessment. */
export async function storeLives(
  context: Context,
  keys: ReadonlyMap<string, number>,
  elements: Element<Life>[],
): Promise<void> {
  const { noted } = await changeLives(context, keys, elements);
  await noteChanges(context.db, context, noted);
}

/** The same but for writing down who changed what. */
export async function changeLives(
  context: Context,
  keys: ReadonlyMap<string, number>,
  elements: Element<Life>[],
): Promise<SetUpWork> {
  const transaction = context.db;
  const stored = await storedLives(transaction, [...keys.values()]);
  const changes: Change[] = [];
  const noted: SetUpChange[] = [];
  const reaches = new Map<number, Reach>();
  const changed: LifeRow[] = [];
  const errors: FieldError[] = [];
  for (const [unit, ofUnit] of groupByVehicle(elements)) {
    const vehicle = keys.get(unit) ?? 0;
    const before = stored.get(vehicle) ?? new Map<number, LifeRow>();
    const asked = new Map(before);
    for (const { value } of ofUnit)
      asked.set(value.fitted_km, mergeLife(before.get(value.fitted_km), vehicle, value));
    const ordered = orderLives([...asked.values()]);
    for (const overlap of ordered.overlaps) errors.push(tellOverlap(overlap, ofUnit));
    const named = new Map(ofUnit.map(({ line, value }) => [value.fitted_km, line]));
    for (const life of ordered.lives) {
      const change = changeOf(before.get(life.fittedKm), life);
      if (named.has(life.fittedKm)) changes.push(change);
      if (change === 'unchanged') continue;
      changed.push(life);
      const found = before.get(life.fittedKm) ?? null;
      noted.push({
        ...actionOf(found),
        subject: 'life',
        subjectId: `${unit} at ${life.fittedKm} km`,
        before: found === null ? null : toContent(found),
        after: toContent(life),
        ...lineAt(named.get(life.fittedKm)),
      });
      addReach(reaches, vehicle, 'stretches');
    }
  }
  if (errors.length > 0) throw refuseSetUp(errors);
  await upsert(transaction, changed, context.now());
  await touchFleet(transaction, reaches);
  return { changes, noted };
}

async function refuseVehiclesOfOthers(
  inside: Context,
  elements: readonly Element<{ vehicle: string }>[],
): Promise<void> {
  const units = elements.map(({ value }) => value.vehicle);
  const rows = await inside.db
    .select({ unit: vehicles.unit, depot: vehicles.depot })
    .from(vehicles)
    .where(inArray(vehicles.unit, units));
  const depotOf = new Map(rows.map(({ unit, depot }) => [unit, depot]));
  refuseOtherDepots(
    elements
      .filter(({ value }) => !isWithin(inside, depotOf.get(value.vehicle) ?? null))
      .map(({ line, value }) => ({
        line,
        field: 'vehicle',
        message: `${value.vehicle} is of no depot that you work for`,
      })),
  );
}

export const toContent = ({
  vehicle: _,
  fittedKm,
  removedKm,
  fittedAt,
  removedAt,
  runKm,
  ...life
}: LifeRow) => ({
  ...life,
  ...(runKm === null ? {} : { run_km: runKm }),
  fitted_km: fittedKm,
  removed_km: removedKm,
  fitted_at: fittedAt?.toISOString() ?? null,
  removed_at: removedAt?.toISOString() ?? null,
});

const lineAt = (line: number | undefined) => (line === undefined ? {} : { line });

function changeOf(before: LifeRow | undefined, after: LifeRow): Change {
  if (before === undefined) return 'created';
  return changedFields(before, after).length > 0 ? 'changed' : 'unchanged';
}

/** Rows of one statement: more would keep others waiting while it is put together. */
const ROWS = 500;

async function upsert(transaction: Database, all: readonly LifeRow[], changedAt: Date): Promise<void> {
  const { vehicle: _, fittedKm: __, ...others } = getTableColumns(lives);
  const set = Object.fromEntries(
    Object.entries(others).map(([field, { name }]) => [field, sql.raw(`excluded."${name}"`)]),
  );
  for (let i = 0; i < all.length; i += ROWS)
    await transaction
      .insert(lives)
      .values(all.slice(i, i + ROWS).map((life) => ({ ...life, changedAt })))
      .onConflictDoUpdate({ target: [lives.vehicle, lives.fittedKm], set });
}

export async function storedLives(
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

export function groupByVehicle<T extends { vehicle: string }>(
  elements: readonly Element<T>[],
): Map<string, Element<T>[]> {
  const groups = new Map<string, Element<T>[]>();
  for (const element of elements) {
    const group = groups.get(element.value.vehicle);
    if (group === undefined) groups.set(element.value.vehicle, [element]);
    else group.push(element);
  }
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
