import { and, asc, eq, inArray, isNotNull } from 'drizzle-orm';
import { lives, vehicles } from '#db/schema/fleet.ts';
import { CLEAR_MARK } from '#server/contract/set-up-files/set-up-column.ts';
import { findSetUpFile } from '#server/contract/set-up-files/set-up-files.ts';
import type { SetUpKind } from '#server/contract/words.ts';
import type { Context } from '#server/services/context.ts';
import { writeCsv } from '#server/services/csv/write-csv.ts';
import { listDepots, listPlatforms } from '#server/services/fleet/list-fleet.ts';
import { toContent } from '#server/services/fleet/set-up-lives.ts';
import { writeCell } from './write-cell.ts';

type Content = Record<string, unknown>;

const listers: Record<SetUpKind, (context: Context) => Promise<Content[]>> = {
  depots: listDepots,
  platforms: listPlatforms,
  vehicles: listVehicles,
  lives: async (context) => (await listLives(context)).map(({ life }) => life),
  failures: listFailures,
};

/** What is on record as the same file that sets it up: taken out, edited and brought back. */
export async function listOnRecord(context: Context, kind: SetUpKind): Promise<string> {
  const { columns } = findSetUpFile(kind);
  const records = await listers[kind](context);
  return writeCsv(
    columns.map(({ name }) => name),
    records.map((record) => columns.map((column) => writeCell(column, record))),
  );
}

const ofOwnDepots = ({ actor: { depots } }: Context) =>
  depots === null ? undefined : and(isNotNull(vehicles.depot), inArray(vehicles.depot, [...depots]));

async function listVehicles(context: Context): Promise<Content[]> {
  return context.db
    .select({
      id: vehicles.unit,
      depot: vehicles.depot,
      platform: vehicles.platform,
      vin: vehicles.vin,
      retired: vehicles.retired,
    })
    .from(vehicles)
    .where(ofOwnDepots(context))
    .orderBy(asc(vehicles.unit));
}

async function listLives(context: Context) {
  const rows = await context.db
    .select({ unit: vehicles.unit, row: lives })
    .from(lives)
    .innerJoin(vehicles, eq(vehicles.key, lives.vehicle))
    .where(ofOwnDepots(context))
    .orderBy(asc(vehicles.unit), asc(lives.fittedKm));
  return rows.map(({ unit, row: { changedAt: _, ...row } }) => ({
    row,
    life: { vehicle: unit, ...toContent(row) },
  }));
}

/** Changes of converters are the ends of lives, each with what was fitted then. */
async function listFailures(context: Context): Promise<Content[]> {
  const all = await listLives(context);
  return all.flatMap(({ row, life }, index) => {
    if (row.removedKm === null || (row.ended !== 'failed' && row.ended !== 'preventive')) return [];
    const follower = all[index + 1]?.row;
    const next =
      follower?.vehicle === row.vehicle && follower.fittedKm === row.removedKm ? follower : undefined;
    return [
      {
        vehicle: life.vehicle,
        odometer_km: row.removedKm,
        day: row.removedAt,
        ended: row.ended,
        mode: row.mode,
        next_source: next === undefined ? CLEAR_MARK : next.source,
        next_supplier: next?.supplier ?? null,
        next_run_km: next?.runKm ?? null,
      },
    ];
  });
}
