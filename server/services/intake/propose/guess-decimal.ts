import type { Mapping } from '#server/contract/mappings.ts';

/** Figures, with a unit behind them or not. */
const COMMA = /^[+\-−]?(?:\d{1,3}(?:[.'’ \u00a0\u202f]\d{3})+|\d+),\d+\s*(?:[\p{L}°%/].*)?$/u;
const POINT = /^[+\-−]?(?:\d{1,3}(?:[,'’ \u00a0\u202f]\d{3})+|\d+)\.\d+\s*(?:[\p{L}°%/].*)?$/u;
/** '1,234' may be a thousand and more. */
const EITHER = /^[+\-−]?[1-9]\d{0,2}[.,]\d{3}\s*(?:[\p{L}°%/].*)?$/u;

/** The decimal sign of the figures, and a cell that may be meant either way, where no other one tells. */
export function guessDecimal(cells: Iterable<string>): {
  decimal: Mapping['decimal'];
  unsure: string | null;
} {
  let commas = 0;
  let points = 0;
  let unsure: string | null = null;
  for (const cell of cells) {
    if (EITHER.test(cell)) unsure ??= cell;
    else if (COMMA.test(cell)) commas += 1;
    else if (POINT.test(cell)) points += 1;
  }
  const decimal = commas > points ? ',' : '.';
  return { decimal, unsure: commas + points === 0 ? unsure : null };
}
