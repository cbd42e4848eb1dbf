import type { DepotBuild } from './depots.ts';
import type { Road } from './drive.ts';
import type { Random } from './random.ts';

/** A moment of a trip: kind of road, speed, grade, and how the driver presses on. */
export function sampleRoad(depot: DepotBuild, payloadShare: number, random: Random): Road {
  const { town, country, gradeSdPct } = depot.terrain;
  const place = random.unit();
  const payload = Math.max(0, Math.min(1, payloadShare + random.normal(0, 0.15)));
  if (place < town)
    return {
      speedKmh: Math.max(14, random.normal(41, 9)),
      gradePct: random.normal(0.3, gradeSdPct * 0.7),
      accelerationMs2: random.normal(0.16, 0.16),
      payloadShare: payload,
    };
  if (place < town + country)
    return {
      speedKmh: Math.max(25, random.normal(62, 10)),
      gradePct: random.normal(0.3, gradeSdPct),
      accelerationMs2: random.normal(0.08, 0.09),
      payloadShare: payload,
    };
  return {
    speedKmh: random.normal(84, 7),
    gradePct: random.normal(0.2, gradeSdPct * 0.6),
    accelerationMs2: random.normal(0.04, 0.05),
    payloadShare: payload,
  };
}
