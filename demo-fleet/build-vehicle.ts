import { DAY_MS } from './calendar.ts';
import { createFault, noFault } from './faults.ts';
import { type LifeSetting, placeCrossing, runLife } from './life-run.ts';
import { dayReaching, kmAt, kmOn, meanKmPerDay, progressAt, sumOdometer, type Window } from './plan.ts';
import type { ClutchBuild, PlatformBuild } from './platforms.ts';
import { Random } from './random.ts';
import type { FaultOrder } from './scenario.ts';
import type { EarlierLife, Vehicle, VehicleLife } from './vehicle.ts';
import type { FaultKind } from './wear.ts';

const suppliers = ['Corvanby Rebuild', 'Orrinlea Drivetrain', 'Brantorly Exchange'] as const;
type Supplier = (typeof suppliers)[number];

/** Converters of one supplier do not last: for an analyst to find. */
const lastingShare = { 'Corvanby Rebuild': 1, 'Orrinlea Drivetrain': 0.65, 'Brantorly Exchange': 1 } as const;

/** What the shop writes into the life's record, in its own words. */
const modeWords: Record<FaultKind, string> = {
  none: 'not recorded',
  linear: 'lining worn',
  accelerating: 'lining burnt',
  stepwise: 'lining broken up',
  seal_leak: 'apply seal leaking',
  valve_sticking: 'valve sticking',
  solenoid: 'solenoid weak',
  sudden: 'sudden loss of lockup',
};

/** No two clutches are alike: friction, film and pulsation scatter by casting and batch. */
function scatterBuild(platform: PlatformBuild, random: Random): ClutchBuild {
  const { clutch } = platform;
  return {
    ...clutch,
    frictionCoefficient: clutch.frictionCoefficient * random.between(0.93, 1.07),
    filmSlipRpm: clutch.filmSlipRpm * Math.exp(random.normal(0, 0.14)),
    microSlipRpm: Math.max(1.5, clutch.microSlipRpm + random.normal(0, 1.3)),
  };
}

/**
 * Lives before the readings began, converters renewed until the present mileage, and who supplied the present one. Whose
 * converter is fitted is drawn apart; the draw that it once was is still made, so that all others stay.
 */
function drawEarlierLives(
  platform: PlatformBuild,
  odometerKm: number,
  random: Random,
  supply: Random,
): { lives: EarlierLife[]; supplier: Supplier | null } {
  const lives: EarlierLife[] = [];
  let fittedKm = 0;
  for (;;) {
    const rebuilt = lives.length > 0;
    const supplier = rebuilt ? supply.pick(suppliers) : null;
    const scaleKm = platform.lifeKm * (supplier === null ? 1.1 : 0.85 * lastingShare[supplier]);
    const removedKm = fittedKm + random.weibull(2.6, scaleKm);
    if (removedKm > odometerKm - 4000) return { lives, supplier };
    const failed = random.chance(0.75);
    if (rebuilt) random.unit();
    lives.push({
      source: rebuilt ? 'rebuilt' : 'original',
      supplier,
      fittedKm: Math.round(fittedKm),
      removedKm: Math.round(removedKm),
      ended: failed ? 'failed' : 'preventive',
      mode: modeWords[random.pick(['linear', 'linear', 'accelerating', 'seal_leak', 'sudden'] as const)],
    });
    fittedKm = Math.round(removedKm);
  }
}

type Draft = Omit<Vehicle, 'lives' | 'earlierLives'>;

/** Gives a vehicle its converters: earlier ones, the present one with its fault, the next where it was changed. */
export function fitConverters(
  draft: Draft,
  order: FaultOrder | null,
  window: Window,
  seed: string,
): Pick<Vehicle, 'lives' | 'earlierLives'> {
  const { platform, plan } = draft;
  const random = new Random(`${seed}|lives`);
  const { lives: earlierLives, supplier } = drawEarlierLives(
    platform,
    kmAt(plan, plan.windowDay),
    random,
    new Random(`${seed}|supply`),
  );
  const last = earlierLives.at(-1);
  const build = scatterBuild(platform, random);
  const setting: LifeSetting = {
    platform,
    build,
    points: draft.points,
    weather: draft.weather,
    plan,
    fault: noFault(`${seed}|fault`),
    fittedKm: last?.removedKm ?? 0,
    fromDay: plan.firstDay,
    toDay: plan.lastDay,
  };
  if (last !== undefined) random.unit();
  const life: VehicleLife = {
    source: last === undefined ? 'original' : 'rebuilt',
    supplier,
    fittedKm: setting.fittedKm,
    fittedDay: null,
    removedKm: null,
    removedDay: null,
    ended: null,
    mode: null,
    reported: true,
    build,
    fault: setting.fault,
    run: { onsetKm: null, crossingKm: null, states: [], eveningRpm: [], series: [] },
  };
  if (order === null) {
    life.run = runLife({ ...setting, toDay: plan.endDay }, true);
    return { earlierLives, lives: [life] };
  }
  placeFault(draft, setting, order, window, random);
  life.fault = setting.fault;
  if (order.fate.at === 'arrival') {
    life.source = 'used';
    life.reported = false;
  }
  if (order.fate.at !== 'window') {
    life.run = runLife(setting, true);
    return { earlierLives, lives: [life] };
  }
  const next = changeConverter(draft, life, setting, order.fate, random);
  return { earlierLives, lives: next === null ? [life] : [life, next] };
}

function placeFault(
  draft: Draft,
  setting: LifeSetting,
  order: FaultOrder,
  window: Window,
  random: Random,
): void {
  const { platform, plan } = draft;
  const { fate, kind } = order;
  const use = meanKmPerDay(platform) / 160;
  const nowKm = odometerNowKm(draft, window);
  let spanKm = random.between(...order.spanKm) * use;
  let crossingKm = nowKm;
  if (fate.at === 'end') {
    const left = random.between(...fate.kmToLimit);
    crossingKm += left;
    if (fate.begun && kind !== 'valve_sticking' && kind !== 'sudden')
      spanKm = Math.max(spanKm, left * 1.4 + 4000);
  } else if (fate.at === 'window') {
    const share = random.between(...fate.share);
    crossingKm = kmAt(plan, plan.windowDay) * (1 - share) + nowKm * share;
  } else {
    crossingKm = kmAt(plan, draft.activeFromDay) - random.between(600, 2500) * use;
  }
  const earliestKm = Math.max(setting.fittedKm, kmAt(plan, plan.firstDay));
  spanKm = Math.min(spanKm, Math.max(3000, 0.9 * (crossingKm - earliestKm)));
  setting.fault = createFault(kind, spanKm, platform, setting.build, draft.points, setting.fault.seed);
  placeCrossing(setting, crossingKm, spanKm);
}

export function odometerNowKm(
  { platform, plan }: Pick<Vehicle, 'platform' | 'plan'>,
  window: Window,
): number {
  const today = progressAt(platform, window.endMs % DAY_MS) * kmOn(plan, plan.endDay);
  return kmAt(plan, plan.endDay) + today;
}

function changeConverter(
  draft: Draft,
  life: VehicleLife,
  setting: LifeSetting,
  fate: { ended: 'failed' | 'preventive'; reported: boolean },
  random: Random,
): VehicleLife | null {
  const { platform, plan } = draft;
  life.run = runLife(setting, true);
  const { crossingKm, onsetKm } = life.run;
  const sudden = setting.fault.kind === 'sudden';
  const use = meanKmPerDay(platform) / 160;
  const reachedKm = crossingKm ?? kmAt(plan, plan.endDay);
  const removalKm =
    fate.ended === 'preventive'
      ? reachedKm - 0.12 * (reachedKm - (onsetKm ?? reachedKm))
      : reachedKm + (sudden ? random.between(1, 60) : random.between(150, 1500) * use);
  const removedDay = dayReaching(plan, removalKm);
  const daysInShop = random.integer(3, fate.ended === 'failed' ? 14 : 6);
  if (removedDay < plan.windowDay || removedDay + daysInShop >= plan.endDay) return null;
  const removedKm = kmAt(plan, removedDay + 1);
  const windowKm = kmAt(plan, plan.windowDay);
  for (let day = removedDay + 1; day <= removedDay + daysInShop; day++) plan.dayKm[day - plan.firstDay] = 0;
  sumOdometer(plan, windowKm);
  life.removedDay = removedDay;
  life.removedKm = Math.round(removedKm);
  life.ended = fate.ended;
  life.mode = modeWords[setting.fault.kind];
  life.run.series = life.run.series.filter(([km]) => km <= removedKm);
  const fault = noFault(`${setting.fault.seed}|next`);
  const build = scatterBuild(platform, random);
  const fittedDay = removedDay + daysInShop;
  const run = runLife(
    { ...setting, build, fault, fittedKm: removedKm, fromDay: fittedDay, toDay: plan.endDay },
    true,
  );
  return {
    source: random.chance(0.7) ? 'rebuilt' : 'new',
    supplier: random.pick(suppliers),
    fittedKm: life.removedKm,
    fittedDay,
    removedKm: null,
    removedDay: null,
    ended: null,
    mode: null,
    reported: fate.reported,
    build,
    fault,
    run,
  };
}
