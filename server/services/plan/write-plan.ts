import type { listAhead } from '#db/queries/list-plannable.ts';
import type { Plan, PlanAssignment, PlanDepot, PlanLeftOut } from '#server/contract/plan.ts';
import type { LeftOutReason } from '#server/contract/words.ts';
import type { Reason } from '#server/engine/assessment/assessment-model.ts';
import { endOfDay } from '#server/services/bookings/to-booking.ts';
import { localOf } from '#server/services/calendar/local-time.ts';
import type { CodeBook } from '#server/services/codes/code-book.ts';
import type { Units } from '#server/services/words/length-words.ts';
import { reasonWords } from '#server/services/words/reason-words.ts';
import type { AskedDepot } from './ask-depot.ts';
import { momentOfQuarter } from './find-gaps.ts';
import { leftOutWords } from './left-out-words.ts';
import { placeSeatings } from './place-seatings.ts';
import { planWarnings } from './plan-warnings.ts';
import type { SolvedDepot } from './solve-depots.ts';
import type { SortedFleet, SortedVehicle } from './sort-vehicles.ts';

const HOUR_MS = 3_600_000;

export interface PlanParts {
  asked: readonly AskedDepot[];
  solved: readonly SolvedDepot[];
  sorted: SortedFleet;
  taken: Awaited<ReturnType<typeof listAhead>>;
  /** first reasons of those that get a day, by key */
  reasons: ReadonlyMap<number, unknown>;
  book: CodeBook;
  units: Units;
  countedTo: string;
  now: Date;
}

/** The proposal as the interface shows it. Sums are those of the rounded parts, so that they can be added up again. */
export function writePlan(parts: PlanParts): Omit<Plan, 'seconds'> {
  const { asked, solved, sorted, countedTo } = parts;
  const assignments = asked.flatMap((one, i) => writeAssignments(one, solved[i], parts));
  const given = new Set(assignments.map(({ vehicle }) => vehicle));
  const leftOut = [
    ...sorted.leftOut.map((one) => writeLeftOut(one, one.reason)),
    ...sorted.candidates.filter(({ row }) => !given.has(row.unit)).map((one) => writeLeftOut(one, 'no_room')),
  ].sort(byUrgency);
  const depots = asked.map((one, i) => writeDepot(one, solved[i], assignments, parts));
  const booked = sorted.booked.map(({ row, scales, day }) => ({
    vehicle: row.unit,
    risk: cents(scales.on(day).riskBefore),
  }));
  const sum = (values: readonly number[]) => cents(values.reduce((total, value) => total + value, 0));
  const bookedRisk = sum(booked.map(({ risk }) => risk));
  const others = bookedRisk + sum(leftOut.map(({ risk }) => risk));
  const [values, bounds] = [solved.map(({ plan }) => plan.value), solved.map(({ plan }) => plan.mostValue)];
  return {
    as_of: sorted.asOf?.toISOString() ?? null,
    from: asked.map(({ room }) => room.from).toSorted()[0] ?? countedTo,
    to:
      asked
        .map(({ room }) => room.to)
        .toSorted()
        .at(-1) ?? countedTo,
    counted_to: countedTo,
    optimal: solved.every(({ plan }) => plan.optimal),
    gap: gapBetween(
      sum(values),
      bounds.some((bound) => bound === null) ? null : sum(bounds.map((bound) => bound ?? 0)),
    ),
    warnings: planWarnings({
      leftOut,
      rooms: asked.map(({ room }) => room),
      depots,
      holdsInDoubt: solved.reduce(
        (total, { plan }) => total + Math.max(0, (plan.mostHolds ?? plan.holds) - plan.holds),
        0,
      ),
    }),
    uncovered_holds: leftOut
      .filter(({ grade, reason }) => grade === 'hold' && reason !== 'inspected')
      .map(({ vehicle }) => vehicle),
    assignments,
    left_out: leftOut,
    depots,
    already_booked: { vehicles: booked.map(({ vehicle }) => vehicle), risk: bookedRisk },
    risk_without: cents(others + sum(assignments.map(({ risk }) => risk))),
    risk_with: cents(others + sum(assignments.map(({ risk_before }) => risk_before))),
    inspection_cost: sum(assignments.map(({ inspection_cost }) => inspection_cost)),
  };
}

function writeAssignments(
  { room, members, question }: AskedDepot,
  solved: SolvedDepot | undefined,
  { reasons, units, book }: PlanParts,
): PlanAssignment[] {
  const { id, timeZone } = room.depot;
  const clock = (quarter: number) => localOf(timeZone, momentOfQuarter(quarter)).clock;
  return placeSeatings(question, solved?.plan.seatings ?? [])
    .toSorted((a, b) => a.fromQuarter - b.fromQuarter || a.bay - b.bay)
    .flatMap(({ candidate, day: at, bay, fromQuarter, toQuarter }): PlanAssignment[] => {
      const [one, day] = [members[candidate], room.days[at]?.day];
      if (one === undefined || day === undefined) return [];
      const { row, grade, scales } = one;
      const weighed = scales.on(day);
      const [risk, before, inspection] = [weighed.risk, weighed.riskBefore, weighed.inspectionCost].map(
        cents,
      );
      const reason = reasons.get(row.key) as Reason | null | undefined;
      return [
        {
          vehicle: row.unit,
          grade,
          platform: row.platform,
          depot: id,
          day,
          bay,
          from: clock(fromQuarter),
          to: endOfDay(clock(toQuarter)),
          hours: (toQuarter - fromQuarter) / 4,
          chance_before: share(weighed.chanceBefore),
          chance_by_end: share(weighed.chanceByEnd),
          risk: risk ?? 0,
          risk_before: before ?? 0,
          inspection_cost: inspection ?? 0,
          cost_avoided: cents((risk ?? 0) - (before ?? 0) - (inspection ?? 0)),
          put_off: row.booking === null ? null : { id: row.booking.id, version: row.booking.version },
          why:
            reason == null
              ? 'Its slip shows nothing: what counts is the chance of a failure that gives no notice'
              : reasonWords(reason, units, book),
        },
      ];
    });
}

function writeLeftOut(one: SortedVehicle, reason: LeftOutReason): PlanLeftOut {
  const { row, grade, scales, depot } = one;
  const { chanceByEnd, risk } = scales.on(depot?.from ?? '2000-01-01');
  return {
    vehicle: row.unit,
    grade,
    depot: row.depot,
    reason,
    words: leftOutWords(one, reason),
    chance_by_end: share(chanceByEnd),
    risk: cents(risk),
  };
}

const byUrgency = (a: PlanLeftOut, b: PlanLeftOut): number =>
  Number(b.grade === 'hold') - Number(a.grade === 'hold') ||
  b.risk - a.risk ||
  (a.vehicle < b.vehicle ? -1 : 1);

function writeDepot(
  { room }: AskedDepot,
  solved: SolvedDepot | undefined,
  assignments: readonly PlanAssignment[],
  { taken, now }: PlanParts,
): PlanDepot {
  const { id, name } = room.depot;
  const planned = new Set(room.days.map(({ day }) => day));
  const extra = solved?.extra ?? null;
  return {
    depot: id,
    name,
    bay_hours: room.days.reduce((sum, { bays }, i) => {
      const whole = room.room[i]?.extra;
      return sum + (bays * ((whole?.toQuarter ?? 0) - (whole?.fromQuarter ?? 0))) / 4;
    }, 0),
    booked_hours: cents(
      taken
        .filter(({ depot, day }) => depot === id && planned.has(day))
        .reduce(
          (sum, { startsAt, endsAt }) =>
            sum + (endsAt.getTime() - Math.max(startsAt.getTime(), now.getTime())) / HOUR_MS,
          0,
        ),
    ),
    proposed_hours: assignments
      .filter(({ depot }) => depot === id)
      .reduce((sum, { hours }) => sum + hours, 0),
    optimal: solved?.plan.optimal ?? false,
    gap: solved === undefined ? null : gapBetween(solved.plan.value, solved.plan.mostValue),
    extra_bay_day: extra && {
      day: extra.day === null ? null : (room.days[extra.day]?.day ?? null),
      worth: cents(extra.worth),
      holds: extra.holds,
    },
  };
}

/** The share of what could be avoided at the most that is missing; rounded up, so that it promises nothing. */
function gapBetween(value: number, most: number | null): number | null {
  if (most === null) return null;
  const missing = most - value;
  if (missing <= 0.01) return 0;
  return most <= 0 ? null : Math.min(1, Math.ceil((missing / most) * 1e5) / 1e5);
}

const cents = (value: number): number => Math.round(value * 100) / 100;
const share = (value: number): number => Math.round(value * 1e4) / 1e4;
