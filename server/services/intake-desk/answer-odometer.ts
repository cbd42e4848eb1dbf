import { and, asc, eq } from 'drizzle-orm';
import { listOdometerAnswers } from '#db/queries/intake-desk/list-odometer-steps.ts';
import { lockVehicles } from '#db/queries/touch-vehicles.ts';
import { odometerAnswers, odometerSteps } from '#db/schema/analysis.ts';
import type { OdometerAnswerInput } from '#server/contract/intake.ts';
import { SlipdriftError } from '#server/errors.ts';
import { noteChanges } from '#server/services/changes/note-changes.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { findVehicle } from '#server/services/vehicles/find-vehicle.ts';
import { matchAnswers } from './match-answers.ts';

/** Keeps what somebody says of a jump of an odometer, in place of what was said before; null takes it back. */
export async function answerOdometer(ctx: Context, input: OdometerAnswerInput): Promise<void> {
  requireAllDepots(ctx.actor, 'Answering for an odometer');
  const { vehicle } = await findVehicle(ctx, input.vehicle);
  const at = new Date(input.at);
  await ctx.db.transaction(async (transaction) => {
    await lockVehicles(transaction, [vehicle.key]);
    const steps = await transaction
      .select()
      .from(odometerSteps)
      .where(eq(odometerSteps.vehicle, vehicle.key))
      .orderBy(asc(odometerSteps.at));
    const step = steps.find((one) => one.at.getTime() === at.getTime());
    if (step === undefined)
      throw new SlipdriftError(
        'not_found',
        `The odometer of ${vehicle.unit} has no jump at ${at.toISOString()}. It may have moved with late readings: look again.`,
      );
    const before = matchAnswers(steps, await listOdometerAnswers(transaction, vehicle.key)).get(step) ?? null;
    if (before !== null)
      await transaction
        .delete(odometerAnswers)
        .where(and(eq(odometerAnswers.vehicle, vehicle.key), eq(odometerAnswers.at, before.at)));
    const { answer, note } = input;
    if (answer !== null)
      await transaction.insert(odometerAnswers).values({
        vehicle: vehicle.key,
        at: step.at,
        answer,
        note,
        answeredAt: ctx.now(),
        answeredBy: ctx.actor.name,
      });
    const moment = { at: step.at.toISOString() };
    await noteChanges(transaction, ctx, [
      {
        action: answer === null ? 'opened_again' : 'answered',
        subject: 'odometer',
        subjectId: vehicle.unit,
        before: before === null ? null : { ...moment, answer: before.answer, note: before.note },
        after: answer === null ? null : { ...moment, answer, note },
        always: ['at'],
      },
    ]);
  });
}
