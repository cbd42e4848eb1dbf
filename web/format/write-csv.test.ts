import { parse } from 'csv-parse/sync';
import { expect, it } from 'vitest';
import { writeCsv } from './write-csv.ts';

const word = (title: string) => ({ title, kind: 'word' as const });
const figure = (title: string) => ({ title, kind: 'figure' as const });

it('writes plain figures, quotes where needed, and nothing where there is none', () => {
  const text = writeCsv({
    caption: 'any',
    columns: [word('series, "name"'), figure('km'), figure('rpm'), figure('load %')],
    rows: [
      ['40 to 55 %, low', '371,204', '−1.5', '–'],
      ['two\nlines', '+0.4', '1e-5', '12'],
    ],
  });
  expect(text).toBe(
    '"series, ""name""",km,rpm,load %\r\n"40 to 55 %, low",371204,-1.5,\r\n"two\nlines",+0.4,1e-5,12\r\n',
  );
  expect(parse(text)).toEqual([
    ['series, "name"', 'km', 'rpm', 'load %'],
    ['40 to 55 %, low', '371204', '-1.5', ''],
    ['two\nlines', '+0.4', '1e-5', '12'],
  ]);
});

// OWASP, CSV Injection: cells that begin with = + - @ tab or carriage return may run as formulas.
it.each(['=1+1', '+1+1', '-1-1', '@SUM(A1)', '\tx', '\rx'])('puts an apostrophe before %j', (cell) => {
  const table = { caption: '', columns: [word('a'), figure('b')], rows: [[cell, '-1']] };
  expect(parse(writeCsv(table))[1]).toEqual([`'${cell}`, '-1']);
});
