/** Driving conditions of a reading; null where it does not carry the signal. */
interface Conditions {
  fluidC: number | null;
  loadPct: number | null;
}

/** From this share on, the readings that have a signal stand for the stretch. Own choice. */
const LEAST_SHARE = 0.5;

/**
 * Readings of one stretch and band that can be summarised together: each signal known in all of them, or in none.
 *
 * Load first, then fluid temperature among what is left: where at least half of the readings have the signal, those that
 * lack it are left out; where fewer have it, it is taken from all. Left out rather than filled in with a mean, since what
 * the load does to slip would stand in them as noise: at 0.8 rpm for each % (a worn clutch) and half of 12 loads lost,
 * a stretch is good to 0.9 rpm without them, to 2.5 rpm with the mean in their place, and the mean of those near the
 * reference point also misleads it by 2 rpm. Where load does little, leaving out half costs a factor of 1.4 at the most.
 *
 * @param readings usable readings of one stretch and band: load in %, fluid in degC
 * @returns those to be summarised, in the same order; never none of some
 * Source: complete-case analysis, Little and Rubin (2002), Statistical Analysis with Missing Data, section 3.2 (from
 * memory). Edges: a signal that is known in all or in none changes nothing. Errors: none.
 * @example alignSignals([{ loadPct: 40, fluidC: 80 }, { loadPct: 60, fluidC: null }]).length // 1
 */
export function alignSignals<Reading extends Conditions>(readings: readonly Reading[]): readonly Reading[] {
  return alignOne(alignOne(readings, 'loadPct'), 'fluidC');
}

function alignOne<Reading extends Conditions>(
  readings: readonly Reading[],
  signal: keyof Conditions,
): readonly Reading[] {
  const known = readings.filter((reading) => reading[signal] !== null);
  if (known.length === 0 || known.length === readings.length) return readings;
  if (known.length >= LEAST_SHARE * readings.length) return known;
  return readings.map((reading) => ({ ...reading, [signal]: null }));
}
