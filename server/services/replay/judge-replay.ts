import {
  type PlainRule,
  plainRules,
  type ReplayNeedless,
  type ReplayResult,
} from '#server/contract/replay.ts';
import { grades } from '#server/contract/words.ts';
import { checkCalibration } from '#server/engine/replay/check-calibration.ts';
import { matchThreshold } from '#server/engine/replay/match-threshold.ts';
import type { JudgedAsking } from '#server/engine/replay/replay-model.ts';
import type { DayColumn } from './day-columns.ts';
import { gradeOf, NOT_LISTED } from './grade-days.ts';
import { type CameTrue, countAskings, type JudgedRule, judgeRule, type RuleCosts } from './judge-rule.ts';
import { LOOK_EVERY_DAYS, listLooks } from './list-looks.ts';
import { noteReplay } from './replay-notes.ts';
import { DAY_MS, dayEndedAt, dayOf, LEARN_DAYS, type ReplayPlan } from './replay-plan.ts';
import type { ReplayedVehicle } from './replayed-vehicle.ts';

const HOLD = grades.indexOf('hold');
const BOOK = grades.indexOf('book');

const columnOf: Record<PlainRule, DayColumn> = { slip_level: 'levelPct', weekly_rise: 'riseRpm' };

/** Tells from the days that were run again what the list would have found, missed and asked for in vain. */
export function judgeReplay(
  plan: ReplayPlan,
  vehicles: readonly ReplayedVehicle[],
  gradesOf: readonly Uint8Array[],
  costsOf: (platform: string | null) => RuleCosts,
): ReplayResult {
  const { request, dayEndMs, fromMs } = plan;
  const how = { dayEndMs, horizonKm: request.horizon_km };
  const failures = listFailures(plan, vehicles);
  const onList = gradesOf.map((own) =>
    Uint8Array.from(own, (grade) => Number(grade === HOLD || grade === BOOK)),
  );
  const list = judgeRule(vehicles, failures, (i) => onList[i] ?? [], how, costsOf);
  const plain = plainRules.map((rule) => {
    const given = rule === 'slip_level' ? request.rules.slip_level_pct : request.rules.weekly_rise_rpm;
    const values = vehicles.map(({ days }) => days[columnOf[rule]]);
    // Whoever follows such a rule is kept calm by the word of a shop as the list is.
    const asksAt = (threshold: number) => (i: number) =>
      Uint8Array.from(values[i] ?? [], (value, day) =>
        Number(value >= threshold && vehicles[i]?.days.isCalm[day] !== 1),
      );
    const seen = values.flatMap((own) => [...own].filter((value) => !Number.isNaN(value)));
    const threshold =
      given ?? matchThreshold(seen, list.score.asked, (x) => countAskings(vehicles, asksAt(x), how));
    const judged = judgeRule(vehicles, failures, asksAt(threshold ?? Number.POSITIVE_INFINITY), how, costsOf);
    return { rule, threshold, matched: given === null, judged };
  });
  const known = {
    late: sum(vehicles, ({ late }) => late),
    loaded: sum(vehicles, ({ loaded }) => loaded),
    learned_every_days: LEARN_DAYS,
  };
  return {
    from: request.from,
    to: request.to,
    days: dayEndMs.length,
    vehicles: vehicles.filter(({ readings }) => readings > 0).length,
    horizon_km: request.horizon_km,
    failures: failures.length,
    scores: [
      { rule: 'list', threshold: null, matched: false, ...list.score },
      ...plain.map(({ rule, threshold, matched, judged }) => ({ rule, threshold, matched, ...judged.score })),
    ],
    came: tellFailures(plan, failures, gradesOf, list, plain[0]?.judged, plain[1]?.judged),
    needless: tellNeedless(plan, vehicles, gradesOf, list),
    calibration: checkCalibration(listLooks(plan, vehicles), request.horizon_km),
    weeks: countWeeks(plan, gradesOf, failures),
    known,
    notes: noteReplay({
      known,
      firstDay: onList.filter((own) => own[0] === 1).length,
      late: list.askings.flat().filter(({ verdict }) => verdict === 'late').length,
      undecided: list.score.undecided,
      cutShort: vehicles.filter(({ courses }) => courses.some(({ isCutShort }) => isCutShort)).length,
      isPart: plan.groups.some(({ members, asked }) => asked.length < members.length),
      early: failures.filter(({ course }) => course.event.atMs < fromMs + LOOK_EVERY_DAYS * DAY_MS).length,
      confirmed: failures.filter(({ course }) => course.event.what === 'confirmed').length,
    }),
  };
}

function listFailures({ fromMs, dayEndMs }: ReplayPlan, vehicles: readonly ReplayedVehicle[]): CameTrue[] {
  const toMs = dayEndMs.at(-1) ?? fromMs;
  return vehicles
    .flatMap((vehicle, place) =>
      vehicle.courses.flatMap(({ event, ...course }): CameTrue[] => {
        if (event === null || event.atMs < fromMs || event.atMs >= toMs) return [];
        return [{ vehicle, place, course: { ...course, event } }];
      }),
    )
    .sort((a, b) => a.course.event.atMs - b.course.event.atMs || a.place - b.place);
}

function tellFailures(
  { dayEndMs }: ReplayPlan,
  failures: readonly CameTrue[],
  gradesOf: readonly Uint8Array[],
  list: JudgedRule,
  level: JudgedRule | undefined,
  rise: JudgedRule | undefined,
): ReplayResult['came'] {
  const warnedBy = (judged: JudgedRule | undefined, i: number) => {
    const warning = judged?.warnings[i] ?? null;
    if (warning === null) return null;
    const { day, noticeKm, noticeDays } = warning;
    return { day: dayEndedAt(dayEndMs[day] ?? 0), notice_km: noticeKm, notice_days: noticeDays };
  };
  return failures.map(({ vehicle, place, course: { event, firstKm } }, i) => {
    const warning = warnedBy(list, i);
    const grade = gradeOf(gradesOf[place]?.[list.warnings[i]?.day ?? -1]);
    return {
      vehicle: vehicle.unit,
      platform: vehicle.platform,
      depot: vehicle.depot,
      what: event.what,
      mode: event.mode,
      day: dayOf(event.atMs),
      odometer_km: event.km,
      first_seen_km: Math.max(0, event.km - firstKm),
      list: warning === null || grade === null ? null : { ...warning, grade },
      slip_level: warnedBy(level, i),
      weekly_rise: warnedBy(rise, i),
    };
  });
}

function tellNeedless(
  { dayEndMs }: ReplayPlan,
  vehicles: readonly ReplayedVehicle[],
  gradesOf: readonly Uint8Array[],
  { askings }: JudgedRule,
): ReplayResult['needless'] {
  const told = vehicles.flatMap(({ unit, platform, depot }, i) =>
    (askings[i] ?? []).flatMap((asking) => {
      const why = whyInVain(asking);
      if (why === null) return [];
      const { fromDay, lastDay, nextDay, isOpen, fromKm, drivenKm } = asking;
      return [
        {
          vehicle: unit,
          platform,
          depot,
          from: dayEndedAt(dayEndMs[fromDay] ?? 0),
          to: isOpen ? null : dayEndedAt(dayEndMs[nextDay ?? lastDay + 1] ?? dayEndMs.at(-1) ?? 0),
          grade: gradeOf(Math.min(...(gradesOf[i]?.subarray(fromDay, lastDay + 1) ?? []))) ?? 'book',
          odometer_km: fromKm,
          driven_km: drivenKm,
          why,
        },
      ];
    }),
  );
  return [...told.filter(({ why }) => why !== 'early'), ...told.filter(({ why }) => why === 'early')];
}

function whyInVain({ verdict, isCleared }: JudgedAsking): ReplayNeedless['why'] | null {
  if (verdict === 'early') return 'early';
  if (verdict !== 'needless') return null;
  return isCleared ? 'no_fault_found' : 'nothing_came';
}

function countWeeks(
  { dayEndMs, fromMs }: ReplayPlan,
  gradesOf: readonly Uint8Array[],
  failures: readonly CameTrue[],
): ReplayResult['weeks'] {
  const weeks: ReplayResult['weeks'] = [];
  for (let first = 0; first < dayEndMs.length; first += 7) {
    const day = Math.min(first + 6, dayEndMs.length - 1);
    const endMs = dayEndMs[day] ?? 0;
    const count = (is: (grade: number) => boolean) =>
      gradesOf.filter((own) => is(own[day] ?? NOT_LISTED)).length;
    const beginMs = fromMs + first * DAY_MS;
    weeks.push({
      day: dayEndedAt(endMs),
      vehicles: count((grade) => grade !== NOT_LISTED),
      hold: count((grade) => grade === HOLD),
      book: count((grade) => grade === BOOK),
      failures: failures.filter(({ course }) => course.event.atMs >= beginMs && course.event.atMs < endMs)
        .length,
    });
  }
  return weeks;
}

const sum = <T>(list: readonly T[], figure: (one: T) => number): number =>
  list.reduce((total, one) => total + figure(one), 0);
