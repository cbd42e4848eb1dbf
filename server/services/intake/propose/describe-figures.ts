import type { FileUnit, Mapping } from '#server/contract/mappings.ts';
import { cutFigure } from '#server/services/intake/mapped/read-figure.ts';
import { unitOf } from '#server/services/intake/mapped/unit-words.ts';

export interface DescribedFigures {
  /** as they are written, from low to high */
  values: number[];
  /** of all cells that hold something */
  share: number;
  /** written in the cells, most often first */
  units: FileUnit[];
}

export function describeFigures(cells: readonly string[], decimal: Mapping['decimal']): DescribedFigures {
  const values: number[] = [];
  const units = new Map<FileUnit, number>();
  for (const cell of cells) {
    const figure = cutFigure(cell, decimal);
    if (figure === null || !Number.isFinite(figure.value)) continue;
    const unit = figure.behind === '' ? null : unitOf(figure.behind);
    if (unit === undefined) continue;
    values.push(figure.value);
    if (unit !== null) units.set(unit, (units.get(unit) ?? 0) + 1);
  }
  return {
    values: values.toSorted((a, b) => a - b),
    share: values.length / Math.max(1, cells.length),
    units: [...units].toSorted((a, b) => b[1] - a[1]).map(([unit]) => unit),
  };
}

/** The value below which this share of them lies. */
export const quantileOf = (sorted: readonly number[], share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.floor(share * sorted.length))] ?? Number.NaN;
