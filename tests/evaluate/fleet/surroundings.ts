import type { FleetSpan } from './plan-vehicle.ts';
import { RandomSource } from './random-source.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

/** What all vehicles of a fleet share, by day of the fleet. */
export interface Surroundings {
  ambientC: Float64Array;
  /** Seasonal bias of slip. */
  seasonRpm: Float64Array;
  /** Common steps, one column a platform. */
  stepRpm: Float64Array[];
}

const YEAR_DAYS = 365.25;
/** Warmest around 20 July. */
const WARMEST_DAY = 201;

export function makeSurroundings(recipe: FleetRecipe, span: FleetSpan, platforms: number): Surroundings {
  const random = new RandomSource(`${recipe.seed}/weather`);
  const ambientC = new Float64Array(span.days);
  const seasonRpm = new Float64Array(span.days);
  const stepRpm = Array.from({ length: platforms }, () => new Float64Array(span.days));
  const first = new Date(span.fromMs);
  const firstOfYear = (span.fromMs - Date.UTC(first.getUTCFullYear(), 0, 1)) / 86_400_000;
  const biasPhase = WARMEST_DAY + random.between(100, 260);
  let weather = 0;
  for (let day = 0; day < span.days; day++) {
    const turn = (2 * Math.PI * (firstOfYear + day)) / YEAR_DAYS;
    weather = 0.8 * weather + 2.2 * random.normal();
    ambientC[day] = 11 + 11 * Math.cos(turn - (2 * Math.PI * WARMEST_DAY) / YEAR_DAYS) + weather;
    seasonRpm[day] = recipe.seasonRpm * Math.cos(turn - (2 * Math.PI * biasPhase) / YEAR_DAYS);
  }
  for (const step of recipe.commonSteps) {
    const column = stepRpm[step.platform];
    for (let day = Math.floor(step.when * span.days); column && day < span.days; day++)
      column[day] = (column[day] ?? 0) + step.rpm;
  }
  return { ambientC, seasonRpm, stepRpm };
}
