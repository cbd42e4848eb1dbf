import { asc, inArray } from 'drizzle-orm';
import type { z } from 'zod';
import type { Database } from '#db/client.ts';
import { findOrAddVehicles } from '#db/queries/find-or-add-vehicles.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { updateVehicles, type VehicleFacts } from '#db/queries/update-vehicles.ts';
import { depots, platforms, vehicles } from '#db/schema/fleet.ts';
import type { Unavailability } from '#server/contract/calendar.ts';
import { vehicleInput } from '#server/contract/fleet.ts';
import type { FieldError } from '#server/contract/problems.ts';
import { cancelForRetired } from '#server/services/bookings/cancel-for-retired.ts';
import type { Context } from '#server/services/context.ts';
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
} from './set-up.ts';
import { addReach, type Reach, touchFleet } from './touch-fleet.ts';

type Vehicle = z.output<typeof vehicleInput>;

export async function setUpVehicles(
  context: Context,
  body: unknown,
  options: SetUpOptions = {},
): Promise<SetUpOutcome> {
  const elements = readElements(body, vehicleInput, (vehicle) => vehicle.id, options.lines);
  return runSetUp(context, options, async ({ db: transaction }) => {
    await refuseUnknownNames(transaction, elements);
    const units = elements.map(({ value }) => value.id);
    const known = await knownUnits(transaction, units);
    const keys = await findOrAddVehicles(transaction, units);
    await lockVehicles(transaction, [...keys.values()]);
    const rows = await transaction
      .select()
      .from(vehicles)
      .where(inArray(vehicles.unit, units))
      .orderBy(asc(vehicles.key));
    const wanted = new Map(elements.map(({ value }) => [value.id, value]));
    const lineOf = new Map(elements.map(({ line, value }) => [value.id, line]));
    const changes: Change[] = [];
    const noted: SetUpChange[] = [];
    const refused: FieldError[] = [];
    const reaches = new Map<number, Reach>();
    const leaving: typeof rows = [];
    const changed: VehicleFacts[] = [];
    for (const row of rows) {
      const { depot, platform, vin, retired, registered, unavailable } = row;
      const before = { depot, platform, vin, retired, registered, unavailable };
      const after = { ...before, ...withoutAbsent(wanted.get(row.unit)), registered: true };
      const fields = changedFields(before, after);
      const line = lineOf.get(row.unit) ?? 1;
      const isKnown = known.has(row.unit);
      if (!isWithin(context, isKnown ? before.depot : after.depot) || !isWithin(context, after.depot))
        refused.push({
          line,
          field: 'depot',
          message: `${row.unit} is, or would be, of a depot that you do not work for`,
        });
      if (fields.length > 0) changed.push({ key: row.key, ...after });
      if (!isKnown || fields.length > 0)
        noted.push({
          ...actionOf(isKnown ? before : null),
          subject: 'vehicle',
          subjectId: row.unit,
          before: isKnown ? before : null,
          after,
          line,
        });
      changes.push(!isKnown ? 'created' : fields.length > 0 ? 'changed' : 'unchanged');
      if (fields.includes('platform')) addReach(reaches, row.key, 'stretches');
      else if (fields.includes('retired')) addReach(reaches, row.key, 'assessment');
      if (fields.includes('retired') && after.retired) leaving.push(row);
    }
    refuseOtherDepots(refused);
    await updateVehicles(transaction, changed);
    noted.push(...(await cancelForRetired({ ...context, db: transaction }, leaving)));
    await touchFleet(transaction, reaches);
    return { changes, noted };
  });
}

async function knownUnits(transaction: Database, units: string[]): Promise<Set<string>> {
  const rows = await transaction
    .select({ unit: vehicles.unit })
    .from(vehicles)
    .where(inArray(vehicles.unit, units));
  return new Set(rows.map((row) => row.unit));
}

/** Fields left out stay as they are; null clears. */
function withoutAbsent(vehicle: Vehicle | undefined) {
  const { id: _, ...fields } = vehicle ?? { id: '' };
  return Object.fromEntries(Object.entries(fields).filter(([, value]) => value !== undefined)) as {
    depot?: string | null;
    platform?: string | null;
    vin?: string | null;
    retired?: boolean;
    unavailable?: Unavailability[];
  };
}

async function refuseUnknownNames(transaction: Database, elements: Element<Vehicle>[]): Promise<void> {
  const knownDepots = new Set(
    (await transaction.select({ id: depots.id }).from(depots)).map((row) => row.id),
  );
  const knownPlatforms = new Set(
    (await transaction.select({ id: platforms.id }).from(platforms)).map((row) => row.id),
  );
  const errors: FieldError[] = [];
  for (const { line, value } of elements) {
    if (value.depot != null && !knownDepots.has(value.depot))
      errors.push({ line, field: 'depot', message: `'${value.depot}' is not known; create the depot first` });
    if (value.platform != null && !knownPlatforms.has(value.platform))
      errors.push({
        line,
        field: 'platform',
        message: `'${value.platform}' is not known; create the platform first`,
      });
  }
  if (errors.length > 0) throw refuseSetUp(errors);
}
