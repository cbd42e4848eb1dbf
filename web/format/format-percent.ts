import { noFigure } from './format-number.ts';

/** A chance or share from 0 to 1, never rounded to a certainty that it is not. */
export function formatPercent(share: number | null | undefined): string {
  if (share == null) return noFigure;
  if (share > 0 && share < 0.01) return '< 1 %';
  if (share < 1 && share > 0.99) return '> 99 %';
  return `${Math.round(share * 100)} %`;
}
