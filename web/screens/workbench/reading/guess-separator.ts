import { parse } from 'csv-parse/browser/esm/sync';
import { type Separator, separators } from './table.ts';

const sampleCharacters = 20_000;
const sampleLines = 40;
/** A separator is one that cuts nearly all lines into as many cells. */
const leastShare = 0.9;
/** Decimal commas cut lines evenly too: what is rarer in figures comes first. */
const order: readonly Separator[] = ['\t', ';', ','];

/** What parts the cells, by the first lines; null where each line is one cell. */
export function guessSeparator(text: string): Separator | null {
  const whole = text.length <= sampleCharacters;
  const cut = text.slice(0, sampleCharacters);
  // The last line of a sample is half a line.
  const sample = whole ? cut : cut.slice(0, Math.max(1, cut.lastIndexOf('\n')));
  const counted = order.map((separator) => ({ separator, ...countCells(sample, separator) }));
  const even = counted.find(({ usual, share }) => usual > 1 && share >= leastShare);
  const most = counted.toSorted((a, b) => b.share * (b.usual - 1) - a.share * (a.usual - 1))[0];
  if (even !== undefined) return even.separator;
  return most !== undefined && most.usual > 1 ? most.separator : null;
}

function countCells(sample: string, separator: Separator): { usual: number; share: number } {
  const lines = cutLeniently(sample, separator);
  const counts = new Map<number, number>();
  for (const { length } of lines) counts.set(length, (counts.get(length) ?? 0) + 1);
  const [usual = 1, times = 0] = [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
  return { usual, share: times / Math.max(1, lines.length) };
}

function cutLeniently(sample: string, separator: Separator): string[][] {
  try {
    return parse(sample, {
      delimiter: separator,
      relax_column_count: true,
      relax_quotes: true,
      skip_empty_lines: true,
      to: sampleLines,
    });
  } catch {
    // A quote that the sample does not close: count without quotes.
    return sample
      .split(/\r?\n/, sampleLines)
      .filter((line) => line !== '')
      .map((line) => line.split(separator));
  }
}

export const isSeparator = (text: string): text is Separator => separators.some((one) => one === text);
