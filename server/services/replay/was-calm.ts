import { CODE_DAYS } from '#db/queries/read-assessed-vehicles.ts';
import type { ReplayVehicle } from '#db/queries/read-replay-vehicles.ts';
import { wordHolds } from '#server/services/assessment/word-holds.ts';
import { stepAt } from './follow-vehicle.ts';
import { DAY_MS } from './replay-plan.ts';

/** A vehicle as it was known then. */
interface KnownThen {
  /** as the instrument showed it, and what makes it the joined track, km */
  odometerKm: number | null;
  offsetKm: number;
  levelRpm: number | null;
  limitRpm: number;
  /** trouble codes that name the clutch */
  codes: readonly string[];
}

/** Whether the word of a shop kept the list calm about a vehicle then. */
export function wasCalm(
  vehicle: ReplayVehicle,
  { odometerKm, offsetKm, ...known }: KnownThen,
  dayEndMs: number,
): boolean {
  const last = vehicle.packets.findLast(({ closedMs }) => closedMs < dayEndMs);
  if (last === undefined || last.calmUntilKm === null) return false;
  const { openedMs, workMs } = last;
  return wordHolds({
    ...known,
    nowKm: odometerKm === null ? null : odometerKm + offsetKm - stepAt(vehicle, workMs),
    knownCodes: last.codes
      .filter(({ lastMs }) => lastMs > openedMs - CODE_DAYS * DAY_MS)
      .map(({ code }) => code),
    untilKm: last.calmUntilKm,
    slipRpm: last.calmSlipRpm,
  });
}
