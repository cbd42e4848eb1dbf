import { createRecordJoiner } from '#server/services/intake/csv-records.ts';
import { splitCells } from '#server/services/intake/split-cells.ts';

export interface SampleRecord {
  line: number;
  cells: string[];
}

/** Records of the beginning of a text; cells where they can be had. */
export function cutTable(text: string, separator: string, mostLines: number): SampleRecord[] {
  const lines = text.split('\n', mostLines).map((one, i) => ({
    line: i + 1,
    text: one.endsWith('\r') ? one.slice(0, -1) : one,
    fault: null,
  }));
  const joiner = createRecordJoiner();
  return [...joiner.push(lines), ...joiner.end()]
    .filter((record) => record.text.trim() !== '')
    .map((record) => ({
      line: record.line,
      cells: (splitCells(record.text, separator) ?? record.text.split(separator)).map((cell) => cell.trim()),
    }));
}

/** Cells of a record less empty ones at its end, which a separator at the end of the line makes. */
export const widthOf = ({ cells }: SampleRecord): number => cells.findLastIndex((cell) => cell !== '') + 1;
