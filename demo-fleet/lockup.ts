import type { DrivePoint } from './drive.ts';
import type { PlatformBuild } from './platforms.ts';
import type { Random } from './random.ts';

type LockupPhase = 'open' | 'applying' | 'partial' | 'full' | 'shifting';

export interface Lockup {
  phase: LockupPhase;
  dutyPct: number;
}

/** What the transmission controller commands: more with load, nothing in low gears or cold fluid. */
export function commandLockup(
  platform: PlatformBuild,
  point: DrivePoint,
  fluidC: number,
  random: Random,
): Lockup {
  const draw = random.unit();
  const scatter = random.normal(0, 1);
  if (point.gear < platform.driveline.firstLockupGear || fluidC < 45 || draw < 0.09)
    return { phase: 'open', dutyPct: random.chance(0.6) ? 0 : random.between(8, 24) };
  if (draw < 0.13) return { phase: 'shifting', dutyPct: random.between(22, 70) };
  if (draw < 0.16) return { phase: 'applying', dutyPct: random.between(15, 50) };
  const gentle = point.loadPct < 35 && point.speedKmh < 60;
  const partialUpTo = gentle ? 0.55 : point.loadPct < 65 ? 0.32 : 0;
  if (draw < partialUpTo) return { phase: 'partial', dutyPct: partialDutyPct(point, scatter) };
  return { phase: 'full', dutyPct: fullDutyPct(point, scatter) };
}

const partialDutyPct = (point: DrivePoint, scatter: number): number =>
  Math.max(40, Math.min(79, 44 + 0.5 * point.loadPct + 5 * scatter));

export const fullDutyPct = (point: DrivePoint, scatter: number): number =>
  Math.max(76, Math.min(100, 79 + 0.16 * point.loadPct + 3 * scatter));
