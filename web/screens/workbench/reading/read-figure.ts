import type { Decimal } from './table.ts';

const patterns = {
  point: /^[+-]?(\d{1,3}(,\d{3})+|\d+)?(\.\d*)?(e[+-]?\d+)?$/i,
  comma: /^[+-]?(\d{1,3}(\.\d{3})+|\d+)?(,\d*)?(e[+-]?\d+)?$/i,
};

/** A number as a cell has it, thousands separated or not; null where it is none. */
export function readFigure(cell: string, decimal: Decimal): number | null {
  const plain = cell.replaceAll(/[\s\u00a0\u202f'’]/g, '').replace('−', '-');
  if (!patterns[decimal].test(plain) || !/\d/.test(plain.split(/e/i)[0] ?? '')) return null;
  const value = Number(
    decimal === 'comma' ? plain.replaceAll('.', '').replace(',', '.') : plain.replaceAll(',', ''),
  );
  return Number.isFinite(value) ? value : null;
}

/** What stands in a cell where nothing is known. */
export const isBlank = (cell: string): boolean =>
  /^(|-|–|\.|n\/?a|nan|null|none|missing)$/i.test(cell.trim());

/**
 * Whether cells have decimals after a comma. '1,234' alone may be either, and is a thousand and more, as where commas part
 * the thousands.
 */
export function guessDecimal(cells: Iterable<string>): Decimal {
  let commas = 0;
  let points = 0;
  for (const cell of cells) {
    const plain = cell.replaceAll(/[\s\u00a0\u202f'’]/g, '').replace('−', '-');
    if (
      /^[+-]?(\d{1,3}(\.\d{3})+|\d+)?,\d+(e[+-]?\d+)?$/i.test(plain) &&
      !/^[+-]?[1-9]\d{0,2},\d{3}$/.test(plain)
    )
      commas++;
    else if (/^[+-]?[\d,]*\.\d+(e[+-]?\d+)?$/i.test(plain) && !/^[+-]?[1-9]\d{0,2}\.\d{3}$/.test(plain))
      points++;
  }
  return commas > points ? 'comma' : 'point';
}
