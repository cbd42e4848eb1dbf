import { makeLifeWeeks, type WeeksMade } from '#db/queries/make-life-weeks.ts';
import { readLifeWeeks, type VehicleWeeks } from '#db/queries/read-life-weeks.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { FIRST_HOT_BIN } from '#server/services/vehicles/hot-fluid.ts';

/**
 * Slip may lie so far on the way from a life's own low level to its limit while exposures still count: some 14 rpm of 150,
 * well beyond the scatter of healthy stretches. Own choice.
 */
const QUIET_SHARE = 0.1;
/** Vehicles of one statement: what it holds in memory stays small. */
const BATCH = 500;
/** Stretches may change while weeks are made: of a few vehicles, each time fewer. */
const MOST_TRIES = 10;

function howMade(): WeeksMade {
  const { limitRpm, bandEdgesPct } = toEngineSettings(null);
  return {
    firstHotBin: FIRST_HOT_BIN,
    quietShare: QUIET_SHARE,
    limitRpm,
    topBand: bandEdgesPct.length - 2,
  };
}

/** How the converters of vehicles were used week by week, made first where that is out of date. */
export async function takeLifeWeeks(
  { db }: Pick<Context, 'db'>,
  vehicles: readonly number[],
): Promise<readonly VehicleWeeks[]> {
  const how = howMade();
  let rows = await readLifeWeeks(db, vehicles, how);
  for (let tries = 0; tries < MOST_TRIES; tries++) {
    const due = rows.filter(({ weeks }) => weeks === null).map(({ vehicle }) => vehicle);
    if (due.length === 0) return rows;
    await makeAll({ db }, due, how);
    const made = new Map((await readLifeWeeks(db, due, how)).map((row) => [row.vehicle, row]));
    rows = rows.map((row) => made.get(row.vehicle) ?? row);
  }
  return rows;
}

/** Makes the weeks of vehicles whose stretches have just changed, so that nobody has to wait for it. */
export const makeLifeWeeksOf = (ctx: Pick<Context, 'db'>, vehicles: readonly number[]): Promise<void> =>
  makeAll(ctx, vehicles, howMade());

async function makeAll(
  { db }: Pick<Context, 'db'>,
  vehicles: readonly number[],
  how: WeeksMade,
): Promise<void> {
  for (let from = 0; from < vehicles.length; from += BATCH)
    await makeLifeWeeks(db, vehicles.slice(from, from + BATCH), how);
}
