/** A figure of a cell, or why it is none. */
export type ReadFigure = { value: number } | { fault: string };

const FIGURE = /^[+-]?(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:[eE][+-]?\d+)?$/;
/** Blanks between thousands mislead nobody: no decimal mark is a blank. */
const BLANK_THOUSANDS = /^([+-]?\d{1,3})((?:[\u0020\u00a0\u202f]\d{3})+)(?=$|[.,])/;
/** Whether a mark before three digits parts thousands or decimals depends on who wrote it. */
const DOUBTFUL = /^[+-]?[1-9]\d{0,2}([.,]\d{3})+$/;
const MANY_MARKS = /^[+-]?\d{1,3}([.,]\d{3}){2,}$/;

/**
 * Where commas part the cells, a point begins the decimals. In other files it is a point or a comma, and a figure such as
 * 187.000 is not guessed at: it may be from a country where that is a thousand times as much.
 */
export function readFigure(cell: string, separator: string): ReadFigure {
  const text = cell.replace(
    BLANK_THOUSANDS,
    (_, first: string, rest: string) => first + rest.replaceAll(/\D/g, ''),
  );
  const byComma = separator === ',';
  if (MANY_MARKS.test(text) || (!byComma && DOUBTFUL.test(text))) return { fault: sayDoubt(cell, text) };
  if (!FIGURE.test(text)) return { fault: `must be a number, not '${cell}'` };
  if (byComma && text.includes(','))
    return {
      fault: `must be a number with a decimal point, not '${cell}': commas part the cells of this file`,
    };
  const value = Number(text.replace(',', '.'));
  return Number.isFinite(value) ? { value } : { fault: `is too large a number: '${cell}'` };
}

function sayDoubt(cell: string, text: string): string {
  const thousands = text.replaceAll(/[.,]/g, '');
  const isLong = MANY_MARKS.test(text);
  return `'${cell}' has marks between thousands: write ${thousands}${isLong ? '' : `, or ${text}0 where its mark begins the decimals`}`;
}
