import { and, eq, isNull } from 'drizzle-orm';
import { listFindings, lockPacket } from '#db/queries/find-packet.ts';
import { findAssessment } from '#db/queries/list-assessments.ts';
import { findOffsetKm } from '#db/queries/odometer-offset.ts';
import type { VehicleRecord } from '#db/queries/read-vehicle-record.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { shopVehicles } from '#db/schema/access.ts';
import { packets } from '#db/schema/packets.ts';
import { lifeInput } from '#server/contract/fleet.ts';
import { modeWords } from '#server/contract/packet-words.ts';
import type { Closed, CloseRequest } from '#server/contract/repair.ts';
import { holdsConverter } from '#server/contract/words.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { inSetUp } from '#server/services/fleet/set-up.ts';
import { storeLives } from '#server/services/fleet/set-up-lives.ts';
import { touchFleet } from '#server/services/fleet/touch-fleet.ts';
import { askMileage } from './ask-mileage.ts';
import { closeBookingOf } from './close-booking-of.ts';
import { findPacket, readPacketVehicle } from './find-packet.ts';
import { objectToClosing } from './object-to-closing.ts';
import { refuseClosed } from './record-finding.ts';
import { refuseOlder } from './save-report.ts';
import type { StoredJudgement, StoredReport } from './stored-packet.ts';
import { toClosing } from './to-closing.ts';

/**
 * Closes a job. Where a converter was replaced its life ends and the next begins; no fault found and declined keep the list
 * calm for a while. The booking is done, and the vehicle leaves the shop. All of it happens, or nothing.
 */
export function closePacket(ctx: Context, id: number, asked: CloseRequest): Promise<Closed> {
  return inSetUp(ctx.db, async (transaction): Promise<Closed> => {
    const inside = { ...ctx, db: transaction };
    const found = await findPacket(inside, id);
    await lockVehicles(transaction, [found.packet.vehicle]);
    const packet = await lockPacket(transaction, id);
    refuseClosed(packet);
    refuseOlder(packet, asked.version);
    const record = await readPacketVehicle(transaction, found.vehicle.unit);
    const report = packet.report as StoredReport;
    const findings = await listFindings(transaction, [id]);
    const results = findings.map(({ step, judgement }) => ({
      step,
      result: (judgement as StoredJudgement).result,
    }));
    refuse(objectToClosing(asked, { report, findings: results }));
    const now = ctx.now();
    const { vehicle } = record;
    const seen =
      vehicle.odometerKm === null || vehicle.lastReadingAt === null
        ? null
        : { odometerKm: vehicle.odometerKm, at: vehicle.lastReadingAt };
    const questions = asked.as_measured ? [] : askMileage(asked.odometer_km, seen, now);
    if (questions.length > 0) return { kind: 'asked', questions };

    const workAt = asked.work_at === undefined ? now : new Date(asked.work_at);
    if (workAt > now) refuse([{ field: 'work_at', message: 'must not lie ahead' }]);
    // Lives are counted along the joined track, which goes on where an instrument was changed.
    const workKm = asked.odometer_km + (await findOffsetKm(transaction, vehicle.key, workAt));
    const { old, isNew } = await changeLives(inside, record, report, asked, { at: workAt, km: workKm });
    const isCalm = asked.outcome !== 'repaired';
    const assessment = isCalm ? await findAssessment(transaction, vehicle.key, now) : null;
    const cause = asked.outcome === 'no_fault_found' ? 'no_fault_found' : report.teardown.cause;
    const set = {
      state: 'closed' as const,
      version: packet.version + 1,
      outcome: asked.outcome,
      closedAt: now,
      closedBy: ctx.actor.name,
      workAt,
      odometerKm: asked.odometer_km,
      cause,
      reason: asked.reason,
      withoutCooler: asked.without_cooler,
      converterKm: old === null ? null : workKm - old.fittedKm + (old.runKm ?? 0),
      ended: asked.ended ?? null,
      newLifeKm: isNew ? workKm : null,
      calmUntilKm: isCalm ? asked.odometer_km + asked.calm_km : null,
      calmSlipRpm: assessment?.referenceSlipRpm ?? null,
    };
    await transaction.update(packets).set(set).where(eq(packets.id, id));
    await touchFleet(transaction, new Map([[vehicle.key, 'stretches']]));
    await noteChanges(transaction, ctx, [
      {
        action: 'packet_closed',
        subject: 'packet',
        subjectId: String(id),
        after: {
          vehicle: vehicle.unit,
          outcome: asked.outcome,
          cause,
          odometer_km: asked.odometer_km,
          ended: asked.ended ?? null,
          reason: asked.reason,
          without_cooler: asked.without_cooler,
        },
      },
    ]);
    await closeBookingOf(inside, vehicle, asked.outcome, now);
    await transaction
      .update(shopVehicles)
      .set({ endedAt: now, endedBy: ctx.actor.name })
      .where(and(eq(shopVehicles.vehicle, vehicle.key), isNull(shopVehicles.endedAt)));
    const { lives } = await readPacketVehicle(transaction, vehicle.unit);
    const closing = toClosing({ ...packet, ...set }, lives);
    if (closing === null) throw new Error('a closed packet has a closing');
    return { kind: 'closed', closing };
  });
}

/** No workshop closes an older job, and no life is kept from before. */
const FIRST_WORK = new Date('1900-01-01T00:00:00Z');

/** Ends the life of the converter that was removed and begins the next. `old` is the life that ran until the work. */
async function changeLives(
  inside: Context,
  { vehicle, lives }: VehicleRecord,
  report: StoredReport,
  asked: CloseRequest,
  work: { at: Date; km: number },
) {
  const part = report.parts.find(({ kind }) => holdsConverter(kind));
  const begun = lives.filter(({ fittedKm }) => fittedKm <= work.km).at(-1);
  const running =
    begun === undefined || (begun.removedKm !== null && begun.removedKm <= work.km) ? null : begun;
  if (part === undefined) return { old: running, isNew: false };
  if (begun !== undefined && begun.fittedKm === work.km)
    refuse([{ field: 'odometer_km', message: `is the mileage at which the present converter was fitted` }]);
  const named =
    running === null && asked.old_converter !== undefined
      ? { fittedKm: asked.old_converter.fitted_km, source: asked.old_converter.source, runKm: null }
      : null;
  if (named !== null && named.fittedKm >= work.km)
    refuse([{ field: 'old_converter.fitted_km', message: 'must be below the mileage of the work' }]);
  if (named !== null && named.fittedKm < (begun?.removedKm ?? 0))
    refuse([
      { field: 'old_converter.fitted_km', message: 'must not be below that at which the one before ended' },
    ]);
  const old = running ?? named;
  if (work.at < (begun?.fittedAt ?? FIRST_WORK))
    refuse([{ field: 'work_at', message: 'must not be before the present converter was fitted' }]);
  const { cause } = report.teardown;
  const ending = {
    removed_km: work.km,
    removed_at: work.at.toISOString(),
    ended: asked.ended ?? null,
    mode: cause === null ? null : modeWords[cause],
  };
  const inputs = [
    ...(old === null
      ? []
      : [{ vehicle: vehicle.unit, fitted_km: old.fittedKm, source: old.source, ...ending }]),
    {
      vehicle: vehicle.unit,
      fitted_km: work.km,
      fitted_at: work.at.toISOString(),
      source: part.source,
      supplier: part.supplier === '' ? null : part.supplier,
      run_km: part.run_km,
    },
  ];
  const elements = inputs.map((input, i) => ({ line: i + 1, input, value: lifeInput.parse(input) }));
  await storeLives(inside, new Map([[vehicle.unit, vehicle.key]]), elements);
  return { old, isNew: true };
}

function refuse(errors: { field: string; message: string }[]): void {
  const [first] = errors;
  if (first === undefined) return;
  const more = errors.length > 1 ? ` (and ${errors.length - 1} more)` : '';
  throw new SlipdriftError(
    'invalid_request',
    `The job cannot be closed yet: ${first.field} ${first.message}${more}. Nothing was changed.`,
    { errors },
  );
}
