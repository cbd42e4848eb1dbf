import type { ReadingInput } from '#server/contract/readings.ts';
import type { Draft } from './draft.ts';

/** A clock that has not come so far counts from its own start; readings from before are refused anyway. */
export const CLOCK_KNOWN_US = Date.UTC(1990, 0, 1) * 1000;

export type DraftReading = Partial<ReadingInput>;

/**
 * A window as the reading that a gateway would have sent. What is not known is left out: the check of readings then says
 * so, and the line can be completed.
 */
export function toReading(draft: Draft, vehicle: string | null, startMs: number | null): DraftReading {
  const atMs = momentOf(draft, startMs);
  const known: { [field in keyof DraftReading]: DraftReading[field] | null } = {
    vehicle,
    at: atMs === null ? null : toIso(atMs),
    odometer_km: rounded(draft.odometerKm),
    slip_rpm: rounded(draft.slipRpm),
    duty_pct: draft.kind === 'open' ? 0 : 100,
    fluid_c: rounded(draft.fluidC),
    load_pct: rounded(draft.loadPct),
    torque_pct: rounded(draft.torquePct),
    throttle_pct: rounded(draft.throttlePct),
    speed_kmh: rounded(draft.speedKmh),
    gear: draft.gear,
    shifting: draft.shifting,
    seconds: rounded((draft.endUs - draft.startUs) / 1_000_000),
    codes: draft.codes.length === 0 ? null : draft.codes,
  };
  const entries = Object.entries(known).filter(([, value]) => value !== null);
  return Object.fromEntries(entries) as DraftReading;
}

/**
 * The moment at which a window began, ms since 1970. A clock that counts from its own start needs to be told when that was;
 * after it has begun anew nobody can tell.
 */
function momentOf({ startUs, afterRestart }: Draft, startMs: number | null): number | null {
  if (startUs >= CLOCK_KNOWN_US) return startUs / 1000;
  return startMs === null || afterRestart ? null : startMs + startUs / 1000;
}

export const needsStart = ({ startUs, afterRestart }: Draft): boolean =>
  startUs < CLOCK_KNOWN_US && !afterRestart;

/** The longest time that the clock of a log can show is beyond what a date holds. */
function toIso(ms: number): string | null {
  const date = new Date(Math.round(ms));
  return Number.isNaN(date.getTime()) || date.getUTCFullYear() > 9999 ? null : date.toISOString();
}

const rounded = (value: number | null): number | null =>
  value === null ? null : Math.round(value * 1000) / 1000;
