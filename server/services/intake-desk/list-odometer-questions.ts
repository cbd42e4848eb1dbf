import {
  listOdometerAnswers,
  listOdometerSteps,
  readFiguresAround,
} from '#db/queries/intake-desk/list-odometer-steps.ts';
import type { OdometerQuestions, OdometerQuestionsQuery } from '#server/contract/intake.ts';
import type { Context } from '#server/services/context.ts';
import { requireAllDepots } from '#server/services/sight.ts';
import { matchAnswers } from './match-answers.ts';

/** Jumps of odometers that nobody has explained, or those that somebody has; newest first. */
export async function listOdometerQuestions(
  { db, actor }: Context,
  query: OdometerQuestionsQuery,
): Promise<OdometerQuestions> {
  requireAllDepots(actor, 'The questions about odometers');
  const [steps, answers] = await Promise.all([listOdometerSteps(db), listOdometerAnswers(db)]);
  const wanted = query.answered === 'true';
  const all = [...new Set(steps.map(({ vehicle }) => vehicle))].flatMap((vehicle) => {
    const own = steps.filter((step) => step.vehicle === vehicle);
    const matched = matchAnswers(
      own,
      answers.filter((answer) => answer.vehicle === vehicle),
    );
    return own.map((step, i) => ({
      step,
      // The offset takes the jump back: figures that fall by 90,000 km get 90,000 km added.
      jumpKm: (own[i - 1]?.offsetKm ?? 0) - step.offsetKm,
      answer: matched.get(step) ?? null,
    }));
  });
  const found = all
    .filter(({ answer }) => (answer !== null) === wanted)
    .sort((a, b) => b.step.at.getTime() - a.step.at.getTime() || (a.step.unit < b.step.unit ? -1 : 1));
  const page = found.slice(query.offset, query.offset + query.limit);
  const figures = await readFiguresAround(
    db,
    page.map(({ step }) => ({ vehicle: step.vehicle, at: step.at })),
  );
  const figureOf = new Map(figures.map((one) => [`${one.vehicle} ${one.at.getTime()}`, one]));
  return {
    total: found.length,
    rows: page.map(({ step, jumpKm, answer }) => {
      const around = figureOf.get(`${step.vehicle} ${step.at.getTime()}`);
      return {
        vehicle: step.unit,
        at: step.at.toISOString(),
        before_km: around?.beforeKm ?? null,
        after_km: around?.afterKm ?? null,
        jump_km: Math.round(jumpKm),
        offset_km: Math.round(step.offsetKm),
        answer:
          answer === null
            ? null
            : {
                answer: answer.answer,
                note: answer.note,
                at: answer.at.toISOString(),
                answered_at: answer.answeredAt.toISOString(),
                answered_by: answer.answeredBy,
              },
      };
    }),
  };
}
