import type { RoadTrace } from '#server/contract/test-steps.ts';

/** A road test as it is drawn: a row a second, two steady stretches about coasting down. */
export function makeRoadTrace(change: Partial<RoadTrace> = {}): RoadTrace {
  const seconds = Array.from({ length: 121 }, (_, i) => i);
  const isCoast = (at: number) => at >= 60 && at < 80;
  return {
    seconds,
    slip_rpm: seconds.map((at) => (at < 20 ? 880 - at : isCoast(at) ? -60 : 12 + (at % 3))),
    duty_pct: seconds.map((at) => (at < 20 || isCoast(at) ? 0 : 78)),
    steady: [
      { from_s: 21, to_s: 60, duty_pct: 78, slip_rpm: 13, slope_rpm_per_s: 0, fluid_c: 82 },
      { from_s: 81, to_s: 120, duty_pct: 78, slip_rpm: 12, slope_rpm_per_s: 0, fluid_c: 84 },
    ],
    set_aside: [
      { from_s: 0, to_s: 20, reason: 'not_commanded', says: 'lockup not commanded' },
      { from_s: 20, to_s: 21, reason: 'duty_moving', says: 'command still moving' },
      { from_s: 60, to_s: 81, reason: 'not_commanded', says: 'lockup not commanded' },
    ],
    gaps: [],
    healthy: [
      { duty_pct: 47.5, low_rpm: 10, usual_rpm: 28, high_rpm: 46 },
      { duty_pct: 77.5, low_rpm: 4, usual_rpm: 14, high_rpm: 26 },
    ],
    limit_rpm: 150,
    reference_duty_pct: 85,
    rows: 121,
    seconds_between_rows: 1,
    told: [],
    file: { name: 'road.csv', bytes: 4096, columns: { time: 'time_s' } },
    ...change,
  };
}
