import { parse } from 'csv-parse/sync';
import fc from 'fast-check';
import { expect, it } from 'vitest';
import { readingFields } from '#server/contract/readings.ts';
import { readCsv } from '#server/services/intake/read-csv.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { fuzz, holdEqual } from './fuzz.ts';
import { hostileText, numberToken } from './hostile-values.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { comparable, holdChecked, readBody } from './read-body.ts';
import { goodReading, type SentReading } from './reading-arbitraries.ts';

const NEEDED = ['vehicle', 'at', 'odometer_km', 'slip_rpm', 'duty_pct'];
const columns = fc
  .tuple(
    fc.shuffledSubarray(readingFields.filter((name) => !NEEDED.includes(name))),
    fc.array(hostileText, { maxLength: 1 }),
    fc.integer({ min: 0, max: 5 }),
  )
  .map(([others, strange, at]) => [...others.slice(0, at), ...NEEDED, ...others.slice(at), ...strange]);

const quote = (text: string): string => `"${text.replaceAll('"', '""')}"`;
const toCell = (value: unknown): string => {
  if (value === undefined) return '';
  const text = Array.isArray(value) ? value.join(' ') : String(value);
  return /[",\r\n]/.test(text) ? quote(text) : text;
};
const cell = fc.oneof(
  numberToken,
  hostileText.map(quote),
  fc.constantFrom('', '"', '""', '"a"b', 'a"b', '"\n"', '"\r\n'),
);
const row = fc.tuple(goodReading(), fc.array(fc.tuple(fc.nat(20), cell), { maxLength: 2 }));
const toRow = (names: string[], reading: SentReading, changes: [number, string][]): string => {
  const cells = names.map((name) => toCell(reading[name]));
  for (const [at, text] of changes) cells[at % (cells.length + 1)] = text;
  return cells.join(',');
};
const table = fc
  .tuple(
    columns,
    fc.array(row, { maxLength: 6 }),
    fc.constantFrom('\n', '\r\n'),
    fc.constantFrom('', '\ufeff'),
  )
  .map(([names, rows, end, start]) =>
    Buffer.from(
      start +
        [
          names.map(toCell).join(','),
          ...rows.map(([reading, changes]) => toRow(names, reading, changes)),
        ].join(end),
    ),
  );

const stray = fc
  .tuple(
    fc.constantFrom(1, 19, 20, 21, 45),
    fc.constantFrom('a,b', '"', 'x"y"', '""'),
    fc.constantFrom(0, 33_000, 66_000),
  )
  .map(([count, line, padding]) => Buffer.from(`\n"${'p'.repeat(padding)}${`\n${line}`.repeat(count)}\n`));
/** A table, and sometimes after it a quote that opens and is closed late or never. */
const body = fc
  .tuple(table, fc.option(stray, { freq: 12 }))
  .map(([bytes, after]) => (after === null ? bytes : Buffer.concat([bytes, after])));

it('reads any bytes as CSV, the same however they are cut', async () => {
  await fuzz('csv', fc.tuple(mutated(body, 2), pieceSizes, fc.boolean()), async ([bytes, sizes, ignore]) => {
    const read = (chunks: AsyncIterable<Buffer>) => readCsv(chunks, ignore, newReadNotes());
    const whole = await readBody(read, [bytes]);
    const cut = await readBody(read, inPieces(bytes, sizes));
    holdEqual(comparable(cut), comparable(whole));
    holdChecked(whole);
  });
});

it('takes every row of a good table, with the cells that csv-parse finds', async () => {
  const good = fc.tuple(
    fc.shuffledSubarray(readingFields, { minLength: readingFields.length }),
    fc.array(goodReading(), { minLength: 1, maxLength: 5 }),
  );
  await fuzz('goodCsv', good, async ([names, readings]) => {
    const text = [names.join(','), ...readings.map((reading) => toRow(names, reading, []))].join('\n');
    const whole = await readBody((chunks) => readCsv(chunks, false, newReadNotes()), [Buffer.from(text)]);
    expect(whole.fault).toBeNull();
    expect(holdChecked(whole)).toEqual({ stored: readings.length, refused: 0 });
    const cells = parse(text, { columns: true }) as Record<string, string>[];
    expect(whole.lines.map(({ value }) => Object.keys(value as object).sort())).toEqual(
      cells.map((record) =>
        Object.keys(record)
          .filter((name) => record[name]?.trim() !== '')
          .sort(),
      ),
    );
  });
});
