import { referenceSlip, type SimulatedLife } from './converter-lives.ts';
import { drawDelays } from './delivery-delays.ts';
import { disturb } from './disturb.ts';
import type { SimulatedVehicle } from './plan-vehicle.ts';
import type { RandomSource } from './random-source.ts';
import type { ReadingTable } from './reading-table.ts';
import type { FleetRecipe } from './simulated-fleet.ts';
import type { Surroundings } from './surroundings.ts';
import { drawUsage } from './usage.ts';
import { writeRow } from './write-row.ts';

const START_SECOND = 5 * 3600;
const DRIVING_SECONDS = 16 * 3600;
const DAY_SECONDS = 86_400;

/** Everything that one vehicle's gateway sends in its history. */
export function writeReadings(
  table: ReadingTable,
  index: number,
  vehicle: SimulatedVehicle,
  platformIndex: number,
  around: Surroundings,
  recipe: FleetRecipe,
  random: RandomSource,
): void {
  const { calendar, lives, platform, odometerChange } = vehicle;
  const { clutch } = platform;
  const { reference } = clutch;
  const usage = drawUsage(vehicle, recipe, random);
  const delays = drawDelays(calendar.days, random);
  const steps = around.stepRpm[platformIndex] ?? new Float64Array(0);
  const seasonShare = random.between(0.7, 1.3);
  let life = lives[0] as SimulatedLife;
  let lifeIndex = 0;
  let healthyLoss = clutch.lossAt(life.converter, life.converter.healthyRpm);

  for (let day = 0; day < calendar.days; day++) {
    const next = lives[lifeIndex + 1];
    if (next !== undefined && next.fromDay <= day) {
      life = next;
      lifeIndex++;
      healthyLoss = clutch.lossAt(life.converter, life.converter.healthyRpm);
    }
    const startKm = calendar.startKm[day] ?? 0;
    const dayKm = (calendar.startKm[day + 1] ?? 0) - startKm;
    if (dayKm === 0) continue;
    const fleetDay = calendar.firstDay + day;
    const offsetRpm =
      seasonShare * (around.seasonRpm[fleetDay] ?? 0) +
      (steps[fleetDay] ?? 0) +
      usage.dayEffectRpm * random.normal();
    const dayScale = 1 + 0.01 * usage.dayEffectRpm * random.normal();
    const dayLoadPct = usage.meanLoadPct + 3.5 * random.normal();
    const dayFluidC =
      reference.fluidC - 5 + 0.4 * (around.ambientC[fleetDay] ?? 0) + usage.warmerC + 1.5 * random.normal();
    const lessKm = odometerChange !== null && day >= odometerChange.fromDay ? odometerChange.lessKm : 0;
    const readings = random.whole(3, 6);
    const slot = DRIVING_SECONDS / readings;

    for (let i = 0; i < readings; i++) {
      const second = START_SECOND + Math.floor((i + 0.02 + 0.96 * random.uniform()) * slot);
      const km = startKm + (dayKm * (second - START_SECOND)) / DRIVING_SECONDS;
      const wornRpm = referenceSlip(life, km);
      const isHealthy = wornRpm === life.converter.healthyRpm;
      const loss = isHealthy ? healthyLoss : clutch.lossAt(life.converter, wornRpm);
      const loadPct = bound(dayLoadPct + recipe.loadSpread * random.normal(), 4, 100);
      const fed = recipe.dutyPerSlipRpm * (wornRpm - life.converter.healthyRpm);
      let dutyPct =
        usage.baseDutyPct + 0.3 * (loadPct - reference.loadPct) + Math.min(fed, 8) + 4 * random.normal();
      if (random.happens(0.08)) dutyPct -= random.between(10, 28);
      dutyPct = bound(dutyPct, 42, 100);
      const fluidC = bound(dayFluidC + 0.15 * (loadPct - reference.loadPct) + 3.5 * random.normal(), 50, 128);
      const held = clutch.slip(life.converter, loss, dutyPct, loadPct, fluidC);
      const row = writeRow(table, usage, random, {
        slipRpm: Math.max(0.5, held * dayScale + offsetRpm),
        dutyPct,
        loadPct,
        fluidC,
        ambientC: around.ambientC[fleetDay] ?? 0,
        isFirstOfDay: i === 0,
      });
      table.vehicle[row] = index;
      table.second[row] = fleetDay * DAY_SECONDS + second;
      const quantum = usage.odometerQuantumKm;
      table.odometerKm[row] = Math.max(0, Math.floor((km - lessKm) / quantum) * quantum);
      if (usage.setsCode && wornRpm > 0.85 * platform.limitRpm && random.happens(0.3)) table.code[row] = 1;
      else if (random.happens(0.0005)) table.code[row] = 2;
      const arrival = fleetDay + (delays[day] ?? 0);
      table.arrivalDay[row] = arrival;
      if (random.happens(0.01))
        table.againDay[row] = arrival + (random.happens(0.6) ? 0 : random.whole(1, 4));
      if (random.happens(recipe.glitchShare)) disturb(table, row, random);
    }
  }
}

const bound = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value));
