import { listRepairs } from '#db/queries/odometer-offset.ts';
import { readBandStretches } from '#db/queries/read-own-stretches.ts';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import type { StretchRecord } from '#db/queries/stored-stretches.ts';
import type { packets } from '#db/schema/packets.ts';
import type { RepairCheck } from '#server/contract/repair.ts';
import { buildSeries } from '#server/engine/assessment/build-series.ts';
import {
  judgeRepair,
  REPAIR_NEEDED_KM,
  type RepairJudgement,
} from '#server/engine/assessment/judge-repair.ts';
import { type PlatformContext, unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { unknownBand } from '#server/engine/platform/unknown-band.ts';
import { REFERENCE_BAND } from '#server/engine/stretches/band-of.ts';
import { STRETCH_KM } from '#server/engine/stretches/build-stretches.ts';
import { NO_PLATFORM } from '#server/services/assessment/learn-platform.ts';
import type { Context } from '#server/services/context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';
import { groupBy } from '#server/services/stretches/group-by.ts';
import { readLearned } from '#server/services/vehicles/read-learned.ts';
import { type Units, wayWords } from '#server/services/words/length-words.ts';

interface Repaired {
  packet: Pick<typeof packets.$inferSelect, 'id' | 'outcome' | 'newLifeKm'>;
  record: Pick<VehicleRecord, 'platform' | 'lives'> & { vehicle: { key: number } };
}

/** Whether slip since a repair is that of healthy vehicles; null where nothing was repaired, or not yet. */
export async function checkRepair(ctx: Context, one: Repaired, units: Units): Promise<RepairCheck | null> {
  return (await checkRepairs(ctx, [one], units)).get(one.packet.id) ?? null;
}

/** The same of some jobs by their packets, those alone of which there is something to say. What they rest on is read once. */
export async function checkRepairs(
  { db }: Pick<Context, 'db'>,
  jobs: readonly Repaired[],
  units: Units,
): Promise<Map<number, RepairCheck>> {
  const repaired = jobs.filter(({ packet }) => packet.outcome === 'repaired');
  if (repaired.length === 0) return new Map();
  const keys = [...new Set(repaired.map(({ record }) => record.vehicle.key))];
  const platforms = [...new Set(repaired.map(platformOf))];
  const [repairs, stretches, learned] = await Promise.all([
    listRepairs(db, keys),
    readBandStretches(db, keys, REFERENCE_BAND),
    Promise.all(platforms.map(async (name) => [name, await readLearned(db, name)] as const)),
  ]);
  const rowsOf = groupBy(stretches, ({ vehicle }) => vehicle);
  const contextOf = new Map(learned.map(([name, { context }]) => [name, context]));
  const checks = repaired.flatMap((one) => {
    const { key } = one.record.vehicle;
    const own = repairs.filter(({ vehicle }) => vehicle === key);
    const context = contextOf.get(platformOf(one)) ?? unknownPlatform;
    const check = judge(one, own, rowsOf.get(key) ?? [], context);
    return check === null ? [] : [[one.packet.id, toCheck(check, units)] as const];
  });
  return new Map(checks);
}

const platformOf = ({ record }: Repaired): string => record.platform?.id ?? NO_PLATFORM;

function judge(
  { packet: { id, newLifeKm }, record }: Repaired,
  repairs: readonly { packet: number; km: number }[],
  rows: readonly StretchRecord[],
  context: PlatformContext,
): RepairJudgement | null {
  const done = repairs.find((one) => one.packet === id);
  if (done === undefined) return null;
  const workKm = newLifeKm ?? done.km;
  const settings = toEngineSettings(record.platform);
  const band = context.bands.find((one) => one.band === REFERENCE_BAND);
  const { points } = buildSeries(rows, band ?? unknownBand(REFERENCE_BAND), settings.reference);
  // Without a border of lives, the stretch in which the work was done holds slip from before it.
  const fromKm = newLifeKm === null ? Math.ceil(workKm / STRETCH_KM) * STRETCH_KM : workKm;
  // What a later repair set right speaks for that one.
  const untilKm = Math.min(
    ...record.lives.map(({ fittedKm }) => fittedKm).filter((km) => km > workKm),
    ...repairs.filter(({ packet: other, km }) => other !== id && km > workKm).map(({ km }) => km),
    Number.POSITIVE_INFINITY,
  );
  const since = points.filter(
    ({ km, life }) => km >= fromKm && km < untilKm && isAfter(life, record, newLifeKm),
  );
  return judgeRepair(since, workKm, band ?? null);
}

/** A stretch across the border belongs to the life that most of it lies in: its own number decides. */
function isAfter(life: number, { lives }: Repaired['record'], newLifeKm: number | null): boolean {
  return newLifeKm === null || life > lives.filter(({ fittedKm }) => fittedKm < newLifeKm).length;
}

function toCheck({ state, kmSince, slipRpm, healthyRpm }: RepairJudgement, units: Units): RepairCheck {
  const tenth = (value: number) => Math.round(value * 10) / 10;
  const rpm = slipRpm === null ? '' : `${Math.round(slipRpm.estimate)} rpm`;
  const since = kmSince === null ? '' : `over ${wayWords(kmSince, units)} since the work`;
  const healthy =
    healthyRpm === null ? '' : `healthy ones of this platform stay below ${Math.round(healthyRpm.high)} rpm`;
  const words = {
    too_early: `Too early to say whether the repair held: it takes ${wayWords(REPAIR_NEEDED_KM, units)} of readings${kmSince === null ? '' : `, and there are ${wayWords(kmSince, units)}`}.`,
    held: `The repair held: slip is ${rpm} ${since}; ${healthy}.`,
    not_held: `The repair did not hold: slip is ${rpm} ${since}, while ${healthy}.`,
    unclear:
      healthyRpm === null
        ? `Slip is ${rpm} ${since}; nothing is known yet of healthy vehicles of this platform.`
        : `Not clear yet whether the repair held: slip is ${rpm} ${since}; ${healthy}.`,
  }[state];
  return {
    state,
    words,
    km_since: kmSince === null ? null : Math.round(kmSince),
    needed_km: REPAIR_NEEDED_KM,
    slip_rpm:
      slipRpm === null
        ? null
        : { estimate: tenth(slipRpm.estimate), low: tenth(slipRpm.low), high: tenth(slipRpm.high) },
    healthy_rpm:
      healthyRpm === null ? null : { usual: tenth(healthyRpm.usual), high: tenth(healthyRpm.high) },
  };
}
