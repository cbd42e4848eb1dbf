import type { Mapping } from '#server/contract/mappings.ts';
import { cutTable } from './cut-table.ts';

type Separator = Mapping['separator'];

/** What is rarer in figures comes first: decimal commas cut lines evenly too. */
const order: readonly Separator[] = ['\t', ';', '|', ','];
const SAMPLE_LINES = 60;
const EVEN = 0.8;
export const TOLD = /^sep=([,;\t|])\r?\n/i;

export const separatorWords: Record<Separator, string> = {
  ',': 'commas',
  ';': 'semicolons',
  '\t': 'tabs',
  '|': 'bars',
};

/** What parts the cells, by the first lines, and another that would do as well; commas where each line is one cell. */
export function guessSeparator(text: string): { separator: Separator; other: Separator | null } {
  const told = TOLD.exec(text)?.[1];
  if (told !== undefined) return { separator: told as Separator, other: null };
  const counted = order.map((separator) => ({ separator, ...countCells(text, separator) }));
  const even = counted.filter(({ usual, share }) => usual > 1 && share >= EVEN);
  const [first, second] = even;
  // A rare one within cells, such as that between trouble codes, cuts into far fewer.
  if (first !== undefined && second !== undefined && first.usual === 2 && second.usual > 4)
    return { separator: second.separator, other: first.separator };
  if (first !== undefined) return { separator: first.separator, other: null };
  const most = counted.toSorted((a, b) => b.share * (b.usual - 1) - a.share * (a.usual - 1))[0];
  return { separator: most !== undefined && most.usual > 1 ? most.separator : ',', other: null };
}

function countCells(text: string, separator: Separator): { usual: number; share: number } {
  const records = cutTable(text, separator, SAMPLE_LINES);
  const counts = new Map<number, number>();
  for (const { cells } of records) counts.set(cells.length, (counts.get(cells.length) ?? 0) + 1);
  const [usual = 1, times = 0] = [...counts].toSorted((a, b) => b[1] - a[1] || b[0] - a[0])[0] ?? [];
  return { usual, share: times / Math.max(1, records.length) };
}
