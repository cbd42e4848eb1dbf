import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRecordJoiner } from './csv-records.ts';
import { splitCells } from './split-cells.ts';

const cell = fc.string({ unit: fc.constantFrom('a', '"', ',', ';', '\t', '|', '\n', ' ', 'é', '1') });
const row = fc.array(cell, { minLength: 1, maxLength: 5 });
const table = fc.array(row, { minLength: 1, maxLength: 6 });
const separator = fc.constantFrom(',', ';', '\t', '|');
const quote = (text: string) =>
  /[",;\t|\n]/.test(text) || text === '' ? `"${text.replaceAll('"', '""')}"` : text;
const toText = (rows: string[][], separator: string) =>
  rows.map((cells) => cells.map(quote).join(separator)).join('\n');

function readAll(text: string) {
  const joiner = createRecordJoiner();
  const lines = text.split('\n').map((line, i) => ({ line: i + 1, text: line, fault: null }));
  return [...joiner.push(lines), ...joiner.end()];
}

describe('reading CSV', () => {
  it('agrees with csv-parse on whatever RFC 4180 can write', () => {
    fc.assert(
      fc.property(table, separator, (rows, delimiter) => {
        const text = toText(rows, delimiter);
        const expected = parse(text, { delimiter, relax_column_count: true }) as string[][];
        expect(readAll(text).map((record) => splitCells(record.text, delimiter))).toEqual(expected);
        expect(expected).toEqual(rows);
      }),
      { seed: 8, numRuns: 500 },
    );
  });

  it('names the physical line on which a record begins', () => {
    const records = readAll('a\n"b\nc\nd"\ne');
    expect(records.map(({ line, text }) => [line, text])).toEqual([
      [1, 'a'],
      [2, '"b\nc\nd"'],
      [5, 'e'],
    ]);
  });

  it('refuses the line alone whose quote is never closed', () => {
    const records = readAll(`x\n"open\n${Array.from({ length: 40 }, (_, i) => `r${i}`).join('\n')}`);
    expect(records).toHaveLength(42);
    expect(records.filter(({ fault }) => fault !== null)).toEqual([
      { line: 2, text: '"open', fault: 'opens a quote that is never closed' },
    ]);
    expect(records.map(({ line }) => line)).toEqual(Array.from({ length: 42 }, (_, i) => i + 1));
  });

  it.each(['a"b', '"a"b', '"a', 'x,"y"z'])('has no cells for quotes that do not pair: %s', (text) => {
    expect(splitCells(text)).toBeNull();
  });
});
