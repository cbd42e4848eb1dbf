import { listDrifting } from '#db/queries/list-assessments.ts';
import { listBookedHours } from '#db/queries/list-booked-hours.ts';
import type { ListFilter } from '#db/queries/list-filter.ts';
import { depots } from '#db/schema/fleet.ts';
import type { Outlook, RankingFilter } from '#server/contract/ranking.ts';
import { type Grade, grades } from '#server/contract/words.ts';
import { chanceAt } from '#server/services/assessment/horizon.ts';
import type { StoredFacts } from '#server/services/assessment/stored-assessment.ts';
import { addDays, listDays, mondayOf } from '#server/services/calendar/depot-days.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { Context } from '#server/services/context.ts';
import { countBayDays } from './count-bay-days.ts';
import { countListed } from './count-listed.ts';
import { toFilter } from './to-filter.ts';

const WEEKS = 12;
const DAY_MS = 86_400_000;
/** What sums of parts of days lose. */
const CRUMB = 1e-6;

/** Vehicles by grade, and when the drifting ones reach their limits, week by week, beside the bay days that are free. */
export async function lookAhead(ctx: Context, query: RankingFilter): Promise<Outlook> {
  const filter = toFilter(ctx, query);
  const now = ctx.now();
  const monday = mondayOf(now.toISOString().slice(0, 10));
  const weeks = Array.from({ length: WEEKS }, (_week, i) => addDays(monday, 7 * i));
  const [{ byGrade, asOf }, known, freeIn] = await Promise.all([
    countListed(ctx, { ...filter, grades: undefined }),
    listDrifting(ctx.db, filter, now),
    readBayDays(ctx, filter, addDays(monday, 7 * WEEKS)),
  ]);
  const drifting = known.map((row) => ({
    ...row,
    kmP50: row.kmP50 ?? 0,
    kmPerDay: row.kmPerDay ?? 0,
    chances: row.chances as StoredFacts['chances'],
  }));
  const overdue = drifting.filter((row) => row.kmP50 === 0);
  const ahead = drifting.filter((row) => row.kmP50 > 0);
  const waiting = ahead.filter((row) => !row.seenTo);
  return {
    as_of: asOf?.toISOString() ?? null,
    counts: Object.fromEntries(grades.map((grade) => [grade, byGrade.get(grade) ?? 0])) as Outlook['counts'],
    overdue: overdue.map(toNamed),
    weeks: weeks.map((week) => {
      const daysTo = (day: string) => Math.max(0, (Date.parse(day) - now.getTime()) / DAY_MS);
      const [from, to] = [daysTo(week), daysTo(addDays(week, 7))];
      const within = (row: (typeof ahead)[number], days: number) =>
        chanceAt(row.chances, days * row.kmPerDay);
      return {
        week,
        expected: round(waiting.reduce((sum, row) => sum + within(row, to) - within(row, from), 0)),
        vehicles: ahead
          .filter(({ kmP50, kmPerDay }) => kmPerDay > 0 && kmP50 / kmPerDay >= from && kmP50 / kmPerDay < to)
          .map(toNamed),
        bay_days: freeIn(week),
      };
    }),
  };
}

const toNamed = ({ unit, grade, seenTo }: { unit: string; grade: Grade; seenTo: boolean }) => ({
  vehicle: unit,
  grade,
  seen_to: seenTo,
});

/** Free bay days by the Monday of their week, of the depots that are asked for and that one may see. */
async function readBayDays(ctx: Context, { depot, sight }: ListFilter, to: string) {
  const now = ctx.now();
  const [all, booked] = await Promise.all([ctx.db.select().from(depots), listBookedHours(ctx.db, to, now)]);
  const chosen = all
    .filter(({ id }) => depot === undefined || id === depot)
    .filter(({ id }) => sight.depots?.includes(id) ?? true)
    .map((calendar) => ({
      calendar,
      booked: new Map(
        booked.filter((one) => one.depot === calendar.id).map(({ day, hours }) => [day, hours]),
      ),
      now: localOf(calendar.timeZone, now),
    }));
  return (week: string) => {
    const days = listDays(week, addDays(week, 6));
    return Math.floor(
      chosen.reduce((sum, one) => sum + countBayDays(one.calendar, one.booked, days, one.now), CRUMB),
    );
  };
}

function round(value: number): number {
  return Math.round(value * 100) / 100;
}
