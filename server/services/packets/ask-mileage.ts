import type { StepQuestion } from '#server/contract/test-steps.ts';
import { kmFromMiles } from '#server/contract/units.ts';
import { dayWords } from '#server/services/words/day-words.ts';

/** The gateway may have been off while the vehicle drove to the shop and back. */
const AHEAD_KM = 500;
const AHEAD_KM_A_DAY = 1_000;
const DAY_MS = 86_400_000;
/** A figure in miles is told from one in kilometres where it would fit so closely. */
const FITS = 0.01;

/** Below this share of the last reading no work was done a little earlier. */
const FAR_BELOW = 0.9;

interface Seen {
  odometerKm: number;
  at: Date;
}

/** Asks about a mileage that does not go with the last reading; nothing where it does. */
export function askMileage(odometerKm: number, seen: Seen | null, now: Date): StepQuestion[] {
  if (seen === null) return [];
  const days = Math.max(0, now.getTime() - seen.at.getTime()) / DAY_MS;
  const most = seen.odometerKm + AHEAD_KM + AHEAD_KM_A_DAY * days;
  if (odometerKm >= Math.floor(seen.odometerKm) && odometerKm <= most) return [];
  const last = `The last reading, of ${dayWords(seen.at)}, has ${say(seen.odometerKm)}`;
  const asMiles = kmFromMiles(odometerKm);
  const isMiles = Math.abs(asMiles - seen.odometerKm) < FITS * seen.odometerKm;
  const off = say(Math.abs(odometerKm - seen.odometerKm));
  return [
    {
      field: 'odometer_km',
      message: isMiles
        ? `${last}. Is ${say(odometerKm)} in miles?`
        : odometerKm < FAR_BELOW * seen.odometerKm
          ? `${last}: ${off} more. Is a digit missing, or was the instrument changed?`
          : odometerKm < seen.odometerKm
            ? `${last}: ${off} more. Was the work done before that reading?`
            : `${last}: ${off} less, within ${Math.ceil(days)} ${Math.ceil(days) === 1 ? 'day' : 'days'}. Is the mileage right?`,
      suggestion: isMiles ? { odometer_km: Math.round(asMiles) } : null,
      suggestion_says: isMiles ? `It was miles: ${say(asMiles)}` : null,
    },
  ];
}

const say = (km: number): string => `${Math.round(km).toLocaleString('en-US')} km`;
