import type { SimulatedLife } from './converter-lives.ts';
import { drawLives } from './draw-lives.ts';
import { DriveCalendar, drawDayKm } from './drive-calendar.ts';
import type { VehicleFate } from './plan-fates.ts';
import type { SimulatedDepot, SimulatedPlatform } from './platforms.ts';
import type { RandomSource } from './random-source.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

export interface FleetSpan {
  fromMs: number;
  toMs: number;
  days: number;
}

/** A vehicle as it is, before anything is measured on it. */
export interface SimulatedVehicle {
  unit: string;
  platform: SimulatedPlatform;
  depot: SimulatedDepot;
  calendar: DriveCalendar;
  lives: SimulatedLife[];
  /** What the instrument shows less than true km, from an own day on. */
  odometerChange: { fromDay: number; lessKm: number } | null;
}

export function planVehicle(
  unit: string,
  fate: VehicleFate,
  platform: SimulatedPlatform,
  depot: SimulatedDepot,
  recipe: FleetRecipe,
  span: FleetSpan,
  random: RandomSource,
): SimulatedVehicle {
  const [fewest, most] = recipe.historyDays;
  let days = random.happens(recipe.thereFromStart) ? most : random.whole(fewest, most);
  if (fate.slipsOnArrival) days = random.whole(fewest, Math.min(most, fewest + 60));
  const firstDay = span.days - days;
  const kmPerDay = fate.slipsOnArrival
    ? random.between(80, 130)
    : Math.min(450, Math.max(80, 190 * Math.exp(0.45 * random.normal())));
  const firstWeekday = new Date(span.fromMs + firstDay * 86_400_000).getUTCDay();
  const dayKm = drawDayKm(days, firstWeekday, kmPerDay, platform.isBus, random);
  let replacedOn: number | null = null;
  if (fate.replaced !== null) {
    replacedOn = Math.floor(days * random.between(0.15, 0.9));
    // A day or two in the workshop.
    dayKm.fill(0, Math.max(1, replacedOn - random.whole(0, 1)), replacedOn + 1);
  }
  const drifts = fate.fate !== 'healthy' || fate.replaced === 'failed';
  const entryKm = Math.round(random.between(drifts ? 85_000 * random.uniform() : 0, 300_000));
  const calendar = new DriveCalendar(span.fromMs, firstDay, entryKm, dayKm);
  const lives = drawLives(fate, calendar, replacedOn, platform, recipe, random);
  const changesInstrument = replacedOn === null && random.happens(0.015) && days > 60;
  return {
    unit,
    platform,
    depot,
    calendar,
    lives,
    odometerChange: changesInstrument ? drawOdometerChange(calendar, random) : null,
  };
}

/** A new instrument starts at 0; one from another vehicle at what it has seen there. */
function drawOdometerChange(calendar: DriveCalendar, random: RandomSource) {
  const fromDay = Math.floor(calendar.days * random.between(0.2, 0.9));
  const starts = random.happens(0.6) ? 0 : Math.round(random.between(20_000, 250_000));
  return { fromDay, lessKm: Math.round(calendar.startKm[fromDay] ?? 0) - starts };
}
