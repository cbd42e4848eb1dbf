import type { PlatformMovement } from '#server/contract/movement.ts';
import { LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';

/** Whether a common movement was learned, or what is lacking. */
export function tellState(learned: { vehicles: number; weeks: number } | null): PlatformMovement['state'] {
  if (learned === null || learned.vehicles === 0) return 'not_yet';
  if (learned.weeks > 0) return 'learned';
  return learned.vehicles < LEAST_VEHICLES ? 'too_few_vehicles' : 'too_few_weeks';
}
