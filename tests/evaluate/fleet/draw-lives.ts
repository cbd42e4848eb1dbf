import type { WearMode } from './clutch.ts';
import type { SimulatedLife } from './converter-lives.ts';
import type { DriveCalendar } from './drive-calendar.ts';
import type { Fate, VehicleFate } from './plan-fates.ts';
import type { SimulatedPlatform } from './platforms.ts';
import type { RandomSource } from './random-source.ts';
import type { FleetRecipe, WearLawName } from './simulated-fleet.ts';
import { drawSpanKm, drawWearLaw, type WearLaw } from './wear-law.ts';

/** A healthy converter shows nothing for at least this long after it was fitted. */
const SOONEST_ONSET_KM = 800;

/** The converter that the vehicle came with and, where one was replaced, the next. */
export function drawLives(
  fate: VehicleFate,
  calendar: DriveCalendar,
  replacedOn: number | null,
  platform: SimulatedPlatform,
  recipe: FleetRecipe,
  random: RandomSource,
): SimulatedLife[] {
  const entryKm = calendar.entryKm;
  // Some were replaced before anybody looked.
  const wasReplaced = entryKm > 150_000 && random.happens(0.15);
  const firstFittedKm = wasReplaced ? Math.round(entryKm * random.between(0.3, 0.6)) : 0;
  const first: SimulatedLife = {
    converter: drawConverter(platform, random),
    law: null,
    fittedKm: firstFittedKm,
    fromDay: 0,
    fittedAs: wasReplaced ? 'rebuilt' : 'original',
    ended: null,
    reported: random.happens(0.6),
  };
  const drawLaw = (life: SimulatedLife, crossKm: number, spanKm: number): WearLaw => {
    const onsetKm = Math.max(life.fittedKm + SOONEST_ONSET_KM, crossKm - spanKm);
    const { limitRpm, clutch } = platform;
    const { healthyRpm } = life.converter;
    const span = { healthyRpm, limitRpm, largestRpm: clutch.largestRpm, onsetKm, crossKm };
    return drawWearLaw(drawLawName(recipe, random), span, random);
  };
  const endIn = (life: SimulatedLife) => {
    const plan = drawEnd(fate, fate.fate, calendar.endKm, life.fittedKm, random);
    if (plan !== null) life.law = drawLaw(life, plan.crossKm, plan.spanKm);
  };
  if (replacedOn === null || fate.replaced === null) {
    endIn(first);
    return [first];
  }
  const replacedKm = calendar.startKm[replacedOn] ?? 0;
  first.ended = fate.replaced;
  if (fate.replaced === 'failed') {
    const drivenOn = Math.min(4000, 0.7 * (replacedKm - entryKm)) * random.uniform();
    first.law = drawLaw(first, replacedKm - drivenOn, drawSpanKm(random));
  } else if (random.happens(0.6)) {
    const left = random.between(1000, 12_000);
    first.law = drawLaw(first, replacedKm + left, drawSpanKm(random, left + 4000));
  }
  const second: SimulatedLife = {
    converter: drawConverter(platform, random),
    law: null,
    fittedKm: replacedKm,
    fromDay: replacedOn,
    fittedAs: random.happens(0.6) ? 'rebuilt' : 'new',
    ended: null,
    reported: !random.happens(recipe.unreportedShare),
  };
  endIn(second);
  return [first, second];
}

/** Where the present converter crosses the limit and how long it takes; null where it never does. */
function drawEnd(
  fate: VehicleFate,
  name: Fate,
  endKm: number,
  fittedKm: number,
  random: RandomSource,
): { crossKm: number; spanKm: number } | null {
  const room = (crossKm: number) => crossKm - fittedKm - SOONEST_ONSET_KM;
  if (name === 'healthy') {
    // Half of them begin to wear some time after the end of the history.
    if (random.happens(0.5)) return null;
    const spanKm = drawSpanKm(random);
    return { crossKm: endKm + spanKm + random.between(500, 250_000), spanKm };
  }
  if (name === 'past') {
    const crossKm = endKm - random.between(100, 5000);
    return { crossKm, spanKm: drawSpanKm(random, 0, room(crossKm)) };
  }
  const [low, high] = name === 'near' ? [50, 5000] : name === 'middle' ? [5000, 20_000] : [20_000, 55_000];
  let left = random.between(low, high);
  if (fate.slipsOnArrival) {
    const spanKm = random.between(45_000, 80_000);
    return { crossKm: endKm + left, spanKm };
  }
  if (fate.replaced !== null) {
    // There must have been time to wear since the fitting; otherwise this one is healthy after all.
    left = Math.min(left, 12_000);
    const most = room(endKm + left);
    if (most < left * 1.1 + 6000) return null;
    return { crossKm: endKm + left, spanKm: drawSpanKm(random, left * 1.1 + 500, most) };
  }
  return { crossKm: endKm + left, spanKm: drawSpanKm(random, left * 1.1 + 500, room(endKm + left)) };
}

function drawConverter(platform: SimulatedPlatform, random: RandomSource) {
  const u = random.uniform();
  const mode: WearMode = u < 0.55 ? 'lining' : u < 0.82 ? 'seal' : 'solenoid';
  const healthyRpm = Math.min(32, Math.max(4, platform.healthyRpm * Math.exp(0.3 * random.normal())));
  return platform.clutch.build(mode, healthyRpm, random.between(0.93, 1.1));
}

function drawLawName(recipe: FleetRecipe, random: RandomSource): WearLawName {
  const weights = Object.entries(recipe.wears) as [WearLawName, number][];
  let u = random.uniform() * weights.reduce((total, [, weight]) => total + weight, 0);
  for (const [name, weight] of weights) {
    u -= weight;
    if (u <= 0) return name;
  }
  throw new Error('a recipe requires at least one law of wear');
}
