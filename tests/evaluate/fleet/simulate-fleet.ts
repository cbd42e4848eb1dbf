import { listArrivals } from './arrivals.ts';
import { DAY_MS } from './drive-calendar.ts';
import { makeTruth } from './make-truth.ts';
import { planFates } from './plan-fates.ts';
import { type FleetSpan, planVehicle, type SimulatedVehicle } from './plan-vehicle.ts';
import { makeDepots, makePlatforms } from './platforms.ts';
import { RandomSource } from './random-source.ts';
import { ReadingTable } from './reading-table.ts';
import { reportLives } from './report-lives.ts';
import type { FleetRecipe, SimulatedFleet, VehicleTruth } from './simulated-fleet.ts';
import { makeSurroundings } from './surroundings.ts';
import { writeReadings } from './write-readings.ts';

/** A fleet, its readings and its truth. The same recipe always gives the same fleet. */
export function simulateFleet(recipe: FleetRecipe): SimulatedFleet {
  const random = new RandomSource(recipe.seed);
  const days = recipe.historyDays[1];
  const toMs = Date.UTC(2026, random.whole(0, 5), random.whole(1, 28));
  const span: FleetSpan = { fromMs: toMs - days * DAY_MS, toMs, days };
  const platforms = makePlatforms(recipe, random.whole(3, 4));
  const depots = makeDepots(recipe, random.whole(2, 4));
  const vehicles = planFates(recipe, random).map((fate, i): SimulatedVehicle => {
    const own = new RandomSource(`${recipe.seed}/plan/${i}`);
    const platform = own.pick(platforms);
    const depot = own.pick(depots);
    const unit = `${platform.isBus ? 'B' : 'T'}-${1001 + i * 3}`;
    return planVehicle(unit, fate, platform, depot, recipe, span, own);
  });

  const around = makeSurroundings(recipe, span, platforms.length);
  const table = new ReadingTable(6 * vehicles.reduce((sum, { calendar }) => sum + calendar.days, 0));
  const truth: VehicleTruth[] = [];
  const lives: SimulatedFleet['lives'] = [];
  vehicles.forEach((vehicle, i) => {
    const own = new RandomSource(`${recipe.seed}/readings/${i}`);
    const firstRow = table.rows;
    writeReadings(table, i, vehicle, platforms.indexOf(vehicle.platform), around, recipe, own);
    const firstReadingMs = span.fromMs + (table.second[firstRow] ?? 0) * 1000;
    truth.push(makeTruth(vehicle, firstReadingMs));
    lives.push(...reportLives(vehicle, toMs, own));
  });
  lives.sort((a, b) => a.atMs - b.atMs);

  return {
    name: recipe.name,
    family: recipe.family,
    seed: recipe.seed,
    fromMs: span.fromMs,
    toMs,
    platforms: platforms.map(({ body }) => body),
    depots: depots.map(({ body }) => body),
    vehicles: vehicles.map(({ unit, depot, platform }) => ({
      id: unit,
      depot: depot.id,
      platform: platform.id,
    })),
    lives,
    arrivals: listArrivals(
      table,
      vehicles.map(({ unit }) => unit),
      span,
    ),
    truth,
  };
}
