import { referenceSlip, type SimulatedLife } from './converter-lives.ts';
import type { SimulatedVehicle } from './plan-vehicle.ts';
import type { VehicleTruth } from './simulated-fleet.ts';

const FURTHEST_KM = 300_000;

export function makeTruth(vehicle: SimulatedVehicle, firstReadingMs: number): VehicleTruth {
  const { calendar, lives, platform } = vehicle;
  const lifeAt = (ms: number): SimulatedLife => {
    let life = lives[0] as SimulatedLife;
    for (const next of lives) if (calendar.msAtStartOf(next.fromDay) <= ms || next.fromDay === 0) life = next;
    return life;
  };
  const endOf = (index: number) => lives[index + 1]?.fittedKm ?? calendar.endKm;
  const worn = lives.filter((life, i) => life.law !== null && life.law.onsetKm < endOf(i));
  const crossings = lives.flatMap(({ law }, i) => {
    if (law === null || law.crossKm > endOf(i) || law.crossKm < calendar.entryKm) return [];
    return [{ km: law.crossKm, ms: calendar.msAt(law.crossKm) }];
  });
  return {
    unit: vehicle.unit,
    platform: platform.id,
    wear: worn.at(-1)?.law?.name ?? 'none',
    firstReadingMs,
    limitRpm: platform.limitRpm,
    odometerAt: (ms) => calendar.kmAt(ms),
    referenceSlipAt: (ms) => referenceSlip(lifeAt(ms), calendar.kmAt(ms)),
    kmToLimitAt(ms) {
      const { law } = lifeAt(ms);
      if (law === null) return null;
      const leftKm = Math.max(0, law.crossKm - calendar.kmAt(ms));
      return leftKm > FURTHEST_KM ? null : leftKm;
    },
    hasOnsetAt(ms) {
      const { law } = lifeAt(ms);
      return law !== null && calendar.kmAt(ms) > law.onsetKm;
    },
    crossings,
    replacements: lives.slice(1).map((life) => ({
      km: life.fittedKm,
      ms: calendar.msAtStartOf(life.fromDay),
      reported: life.reported,
    })),
  };
}
