import { noFigure } from './format-number.ts';
import { withUnit } from './with-unit.ts';

/** A chance or share from 0 to 1, never rounded to a certainty that it is not. */
export function formatPercent(share: number | null | undefined): string {
  if (share == null) return noFigure;
  if (share > 0 && share < 0.01) return withUnit('<\u00a01', '%');
  if (share < 1 && share > 0.99) return withUnit('>\u00a099', '%');
  return withUnit(String(Math.round(share * 100)), '%');
}
