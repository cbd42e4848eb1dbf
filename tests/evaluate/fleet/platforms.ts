import { createBreakawayClutch } from './breakaway-clutch.ts';
import type { Clutch } from './clutch.ts';
import { createFilmClutch } from './film-clutch.ts';
import type { FleetRecipe } from './simulated-fleet.ts';

export interface SimulatedPlatform {
  id: string;
  limitRpm: number;
  /** Typical healthy reference slip. */
  healthyRpm: number;
  isBus: boolean;
  clutch: Clutch;
  body: object;
}

export interface SimulatedDepot {
  id: string;
  /** What hills and payload of the place add to the mean load, in percent points. */
  loadPct: number;
  /** Against the mean of the fleet. */
  ambientC: number;
  body: object;
}

const kinds = [
  { id: 'haul-18', name: 'Rigid haulage, 18 t', limitRpm: 150, healthyRpm: 14, isBus: false },
  { id: 'bus-12', name: 'City bus, 12 m', limitRpm: 120, healthyRpm: 11, isBus: true, at: [80, 45, 88] },
  { id: 'tip-26', name: 'Tipper, 26 t', limitRpm: 180, healthyRpm: 18, isBus: false, at: [88, 60, 92] },
  { id: 'coach-13', name: 'Coach, 13 m', limitRpm: 150, healthyRpm: 9, isBus: true },
] as const;

const places = [
  { id: 'north', name: 'Depot North', ambientC: -3, zone: 'Europe/Helsinki', bays: 2 },
  { id: 'harbour', name: 'Harbour Depot', ambientC: 1, zone: 'Europe/Lisbon', bays: 1 },
  { id: 'ridge', name: 'Ridge Depot', ambientC: -2, zone: 'Europe/Vienna', bays: 2 },
  { id: 'plain', name: 'Depot Plain', ambientC: 3, zone: 'UTC', bays: 1 },
];

export function makePlatforms(recipe: FleetRecipe, count: number): SimulatedPlatform[] {
  const create = recipe.friction === 'film' ? createFilmClutch : createBreakawayClutch;
  return kinds.slice(0, count).map((kind) => {
    const [dutyPct, loadPct, fluidC] = 'at' in kind ? kind.at : ([85, 50, 85] as const);
    const reference = { duty_pct: dutyPct, load_pct: loadPct, fluid_c: fluidC };
    return {
      id: kind.id,
      limitRpm: kind.limitRpm,
      healthyRpm: kind.healthyRpm,
      isBus: kind.isBus,
      clutch: create({ dutyPct, loadPct, fluidC }, kind.limitRpm),
      body: {
        id: kind.id,
        name: kind.name,
        limit_rpm: kind.limitRpm,
        ...('at' in kind ? { reference } : {}),
      },
    };
  });
}

export function makeDepots(recipe: FleetRecipe, count: number): SimulatedDepot[] {
  const [low, high] = recipe.depotLoads;
  return places.slice(0, count).map((place, i) => ({
    id: place.id,
    loadPct: low + ((high - low) * ((i * 2) % count)) / Math.max(1, count - 1),
    ambientC: place.ambientC,
    body: { id: place.id, name: place.name, bays: place.bays, time_zone: place.zone },
  }));
}
