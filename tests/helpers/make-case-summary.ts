import type { CaseSummary } from '#server/engine/assessment/summarise-cases.ts';

/** A clutch that has drifted from 20 to 80 rpm since 110,000 km. */
export function makeCaseSummary(changes: Partial<CaseSummary> = {}): CaseSummary {
  return {
    drifting: 0.95,
    stepping: 0.03,
    accelerating: 0.3,
    level: { mean: 80, sd: 2 },
    baseline: { estimate: 20, low: 18, high: 22 },
    onset: { estimate: 110_000, low: 108_000, high: 112_000 },
    driftRpmPerKm: { estimate: 0.006, low: 0.005, high: 0.007 },
    jumpRpm: 45,
    ...changes,
  };
}
