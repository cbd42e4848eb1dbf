import type { LifeFit } from '#server/contract/lives.ts';
import { formatKm, formatKmRange } from '#web/format/format-km.ts';
import type { Units } from '#web/format/units.ts';

/** Which life of the platform's converters the list reckons with; null where it follows from the field beside it. */
export function sayPlatformLife(fit: LifeFit | undefined, units: Units): string | null {
  if (fit === undefined || fit.basis === 'expected') return null;
  const { estimate, low, high } = fit.b50_km;
  const bounds = low === null || high === null ? '' : ` (${formatKmRange(low, high, units)})`;
  return `The list reckons with half of them failed by ${formatKm(estimate, units)}${bounds}, ${fit.says}. The expected life does not act meanwhile.`;
}
