import type { FleetEvent } from '#server/contract/movement.ts';
import { type Step, sayEvent } from './say-movement.ts';

export const toFleetEvent = (step: Step): FleetEvent => ({
  at: step.at.toISOString(),
  size_rpm: Math.round(step.sizeRpm * 10) / 10,
  vehicles: step.vehicles,
  sentence: sayEvent(step),
});
