import { and, asc, eq, gte, lte, sql } from 'drizzle-orm';
import type { Database } from '#db/client.ts';
import { findRebuildWindow } from '#db/queries/find-rebuild-window.ts';
import { outdateLifeWeeks } from '#db/queries/read-life-weeks.ts';
import { readReadings } from '#db/queries/read-readings.ts';
import { replaceStretches } from '#db/queries/replace-stretches.ts';
import type { TouchedVehicle } from '#db/queries/take-touched-vehicles.ts';
import { odometerSteps } from '#db/schema/analysis.ts';
import { lives } from '#db/schema/fleet.ts';
import { buildStretches } from '#server/engine/stretches/build-stretches.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from './engine-settings.ts';
import { numberLives } from './number-lives.ts';
import { sealStretches } from './seal-stretches.ts';

/** Serialises the workers that build stretches of the same vehicle; the vehicle's key is the second number. */
const STRETCH_LOCK = 730_511;
/** Readings around the window that the gates look at: twice what a step of the odometer needs to be confirmed. */
const GUARD = 24;

/**
 * Builds the stretches that a vehicle's new readings touch again, from all their readings. Where a step of the
 * odometer is found or gone, everything after it is built again too. Stretches and steps whose readings retention has
 * dropped stay.
 */
export async function refreshStretches(
  ctx: Context,
  { span, vehicle: { key: vehicle }, platform }: TouchedVehicle,
): Promise<void> {
  const settings = toEngineSettings(platform);
  await ctx.db.transaction(async (transaction) => {
    await transaction.execute(sql`select pg_advisory_xact_lock(${STRETCH_LOCK}, ${vehicle})`);
    const known = await transaction.select().from(lives).where(eq(lives.vehicle, vehicle));
    const lifeAt = numberLives(known);
    const window = await findRebuildWindow(transaction, vehicle, span.fromAt, span.toAt);
    await outdateLifeWeeks(transaction, vehicle);
    const first = await rebuild(transaction, window);
    if (!first.stepsChanged) return;
    await rebuild(transaction, { fromAt: window.fromAt, toAt: new Date(8.64e15) });

    async function rebuild(db: Database, { fromAt, toAt }: { fromAt: Date; toAt: Date }) {
      const until = toAt.getTime() > 4e12 ? new Date('9999-12-31T00:00:00Z') : toAt;
      const readings = await readReadings(db, vehicle, fromAt, until, GUARD);
      const sealed = await sealStretches(db, vehicle, fromAt, until, lifeAt);
      const firstAt = momentOf(readings[0]) ?? until;
      const [before] = await db
        .select()
        .from(odometerSteps)
        .where(and(eq(odometerSteps.vehicle, vehicle), lte(odometerSteps.at, firstAt)))
        .orderBy(sql`${odometerSteps.at} desc`)
        .limit(1);
      const built = buildStretches(readings, {
        gate: settings.gate,
        bandEdgesPct: settings.bandEdgesPct,
        reference: settings.reference,
        referenceTorqueNm: settings.referenceTorqueNm,
        lifeAt,
        offsetKm: before?.offsetKm ?? 0,
        fromStart:
          sealed.length === 0 && readings.filter(({ atMs }) => atMs < fromAt.getTime()).length < GUARD,
      });
      const inside = (one: { firstAtMs: number; lastAtMs: number }) =>
        one.firstAtMs <= until.getTime() && one.lastAtMs >= fromAt.getTime();
      const spared = new Set(sealed.map(nameStretch));
      const totals = built.totals.filter((total) => inside(total) && !spared.has(nameStretch(total)));
      const kept = new Set(totals.map(nameStretch));
      const rows = built.rows.filter((row) => kept.has(nameStretch(row)));
      await replaceStretches(db, vehicle, { fromAt, toAt: until }, sealed, rows, totals);
      const steps = built.steps.flatMap(({ index, offsetKm }) => {
        const at = momentOf(readings[index]);
        return at !== null && at >= fromAt && at <= until ? [{ vehicle, at, offsetKm }] : [];
      });
      const stepsFrom = firstAt < fromAt ? fromAt : new Date(firstAt.getTime() + 1);
      return { stepsChanged: await replaceSteps(db, vehicle, stepsFrom, until, steps) };
    }
  });
}

async function replaceSteps(
  db: Database,
  vehicle: number,
  fromAt: Date,
  toAt: Date,
  steps: { vehicle: number; at: Date; offsetKm: number }[],
): Promise<boolean> {
  const inSpan = and(
    eq(odometerSteps.vehicle, vehicle),
    gte(odometerSteps.at, fromAt),
    lte(odometerSteps.at, toAt),
  );
  const old = await db.select().from(odometerSteps).where(inSpan).orderBy(asc(odometerSteps.at));
  const same =
    old.length === steps.length &&
    old.every(
      (step, i) => step.at.getTime() === steps[i]?.at.getTime() && step.offsetKm === steps[i]?.offsetKm,
    );
  if (same) return false;
  await db.delete(odometerSteps).where(inSpan);
  if (steps.length > 0) await db.insert(odometerSteps).values(steps);
  return true;
}

const nameStretch = ({ life, stretch }: { life: number; stretch: number }) => `${life} ${stretch}`;

function momentOf(reading: { atMs: number } | undefined): Date | null {
  return reading === undefined ? null : new Date(reading.atMs);
}
