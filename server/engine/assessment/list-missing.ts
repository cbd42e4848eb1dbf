import { LEAST_VEHICLES } from '#server/engine/platform/estimate-common-movement.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import type { AssessmentInput } from './assessment-input.ts';
import type { Missing } from './assessment-model.ts';
import type { SeriesPoint } from './build-series.ts';

/** Stretches at the reference point below which nothing is said of drift. */
export const LEAST_STRETCHES = 6;
/** Stretches before the onset below which the healthy level is the platform's more than the vehicle's own. */
const LEAST_START = 4;
/** A gateway that was silent for so many days is quiet. */
const QUIET_DAYS = 14;
const DAY_MS = 86_400_000;

/**
 * What is missing of one vehicle, so that people can judge what its figures rest on.
 *
 * @param input    one vehicle
 * @param limitRpm limit that it is held to, rpm
 * @param context  learned from its platform
 * @param points   at the reference point, of the clutch that is fitted now, in order of km
 * @param onsetKm  where its rise began, km; null without one
 * @returns what is missing, with the numbers to say it by
 * Source: own selection. Edges: of a vehicle without points nothing is said of load, temperature and start. Errors: none.
 * @example listMissing({ ...nothing, stretches: [] }, 150, unknownPlatform, [], null)[0].kind // no_usable
 */
export function listMissing(
  input: AssessmentInput,
  limitRpm: number,
  context: PlatformContext,
  points: readonly SeriesPoint[],
  onsetKm: number | null,
): Missing[] {
  const missing: Missing[] = [];
  if (input.stretches.length === 0) missing.push({ kind: 'no_usable' });
  else if (points.length < LEAST_STRETCHES)
    missing.push({ kind: 'few_stretches', have: points.length, need: LEAST_STRETCHES });
  if (!input.hasPlatform) missing.push({ kind: 'no_platform', limitRpm });
  else if (context.vehicles < LEAST_VEHICLES)
    missing.push({ kind: 'small_platform', vehicles: context.vehicles });
  if (points.length > 0 && points.every((point) => point.loadPct === null)) missing.push({ kind: 'no_load' });
  if (points.length > 0 && points.every((point) => point.fluidC === null))
    missing.push({ kind: 'no_temperature' });
  const days = input.lastReadingMs === null ? 0 : Math.floor((input.nowMs - input.lastReadingMs) / DAY_MS);
  if (days >= QUIET_DAYS) missing.push({ kind: 'quiet', days });
  if (onsetKm !== null && points.filter((point) => point.km < onsetKm).length < LEAST_START)
    missing.push({ kind: 'short_start' });
  return missing;
}
