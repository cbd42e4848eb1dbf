import type { VehicleSeries } from '#server/contract/vehicle.ts';

const signals = { fluid_c: 'fluid temperature', load_pct: 'load' } as const;

/** Why there is no histogram of a signal: the feed lacks it, or the converter fitted now has no usable readings yet. */
export function sayNoSignal(
  { series, readings }: Pick<VehicleSeries, 'series' | 'readings'>,
  signal: keyof typeof signals,
): string {
  const isKnown = series.some((band) => band.points.some((point) => point[signal] !== null));
  if (readings.usable === 0 || isKnown) return 'No usable readings of this converter yet.';
  return `No ${signals[signal]} in the feed.`;
}
