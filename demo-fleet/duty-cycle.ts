import { type ClutchState, clutchHeatKw, solveSlipRpm } from './clutch.ts';
import type { DepotBuild } from './depots.ts';
import { driveAt } from './drive.ts';
import { steadyFluidC } from './fluid.ts';
import { fullDutyPct } from './lockup.ts';
import type { ClutchBuild, PlatformBuild } from './platforms.ts';
import { Random } from './random.ts';
import { sampleRoad } from './terrain.ts';

/** A share of the locked kilometres of one platform from one depot, by rising torque. */
export interface TypicalPoint {
  share: number;
  torqueNm: number;
  turbineRpm: number;
  loadPct: number;
  dutyPct: number;
  speedKmh: number;
}

const POINTS = 4;
const SAMPLES = 800;
const LOCKED_SHARE = 0.75;

export function summariseDutyCycle(platform: PlatformBuild, depot: DepotBuild, seed: string): TypicalPoint[] {
  const random = new Random(`${seed}|duty-cycle|${platform.id}|${depot.id}`);
  const points = Array.from({ length: SAMPLES }, () => driveAt(platform, sampleRoad(depot, 0.5, random)))
    .filter((point) => point.torqueNm > 0 && point.gear >= platform.driveline.firstLockupGear)
    .sort((one, other) => one.torqueNm - other.torqueNm);
  const size = Math.floor(points.length / POINTS);
  return Array.from({ length: POINTS }, (_, i) => {
    const group = points.slice(i * size, (i + 1) * size);
    const mean = (value: (point: (typeof points)[number]) => number) =>
      group.reduce((sum, point) => sum + value(point), 0) / group.length;
    return {
      share: LOCKED_SHARE / POINTS,
      torqueNm: mean((point) => point.torqueNm),
      turbineRpm: mean((point) => point.turbineRpm),
      loadPct: mean((point) => point.loadPct),
      dutyPct: mean((point) => fullDutyPct(point, 0)),
      speedKmh: mean((point) => point.speedKmh),
    };
  });
}

/** Clutch heat of a day of such driving, in MJ per km, and the mean fluid temperature. */
export function measureDay(
  platform: PlatformBuild,
  build: ClutchBuild,
  state: ClutchState,
  points: readonly TypicalPoint[],
  ambient: number,
): { heatMjPerKm: number; fluidC: number } {
  let heatMjPerKm = 0;
  let fluidC = 0;
  for (const point of points) {
    const coolC = steadyFluidC(platform, ambient, point.loadPct, 0);
    const slipRpm = solveSlipRpm(build, state, { ...point, fluidC: coolC });
    const heatKw = clutchHeatKw(point.torqueNm, slipRpm);
    heatMjPerKm += (point.share * heatKw * 3.6) / point.speedKmh;
    fluidC += (coolC + (LOCKED_SHARE * heatKw) / platform.fluid.coolerKwPerK) / points.length;
  }
  return { heatMjPerKm, fluidC };
}
