/** Milliseconds, to a tenth. */
export function summarise(times: readonly number[]): {
  p50: number;
  p95: number;
  p99: number;
  longest: number;
} {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) =>
    Math.round((sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)] ?? Number.NaN) * 10) / 10;
  return { p50: at(0.5), p95: at(0.95), p99: at(0.99), longest: at(1) };
}
