/** What is asked of a figure, or of its ratio to the reference. */
export type Wanted = { at_least: number } | { at_most: number } | { ratio_at_least: number };

export interface Figure {
  figure: string;
  value: number;
  unit: string;
  /** measured in the same run on the same machine, in the same unit */
  reference?: { what: string; value: number };
  /** of the figure to its reference; measured in turn, it may differ from the ratio of the two medians */
  ratio?: number;
  wanted?: Wanted;
}

export type Tell = (figure: Figure) => void;

/** One line for a program to read: rounded, with the ratio and whether it is as wanted. */
export function toLine({ figure, value, unit, reference, ratio, wanted }: Figure): string {
  const found = ratio ?? (reference === undefined ? undefined : value / reference.value);
  return JSON.stringify({
    figure,
    value: round(value),
    unit,
    ...(reference === undefined ? {} : { reference: { ...reference, value: round(reference.value) } }),
    ...(found === undefined ? {} : { ratio: round(found) }),
    ...(wanted === undefined ? {} : { wanted, met: isMet(wanted, value, found ?? Number.NaN) }),
  });
}

function isMet(wanted: Wanted, value: number, ratio: number): boolean {
  if ('at_least' in wanted) return value >= wanted.at_least;
  if ('at_most' in wanted) return value <= wanted.at_most;
  return ratio >= wanted.ratio_at_least;
}

/** Four digits, or whole where there are more. */
const round = (value: number): number =>
  Math.abs(value) >= 1000 ? Math.round(value) : Number(value.toPrecision(4));
