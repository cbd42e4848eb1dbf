import { parse } from 'csv-parse/sync';
import { describe, expect, it } from 'vitest';
import { writeCsv } from './write-csv.ts';

describe('writeCsv', () => {
  // OWASP, CSV Injection: cells that begin with = + - @ tab or carriage return may run as formulas.
  it.each(['=1+1', '+1', '-1', '@SUM(A1)', '\tx', '\rx', '=HYPERLINK("http://x.test")'])(
    'puts an apostrophe before the text %j',
    (text) => {
      const [, row] = parse(writeCsv(['a', 'b'], [[text, 'kept']]), { relax_quotes: false }) as string[][];
      expect(row).toEqual([`'${text}`, 'kept']);
    },
  );

  it('leaves numbers as numbers, negative ones too', () => {
    expect(writeCsv(['a'], [[-12.5], [3]])).toBe('a\r\n-12.5\r\n3\r\n');
  });

  it('quotes commas, quotes and line breaks, and leaves nothing for null', () => {
    const text = writeCsv(
      ['name', 'note'],
      [
        ['a "b", c', null],
        ['two\nlines', true],
      ],
    );
    expect(text).toBe('name,note\r\n"a ""b"", c",\r\n"two\nlines",true\r\n');
    expect(parse(text)).toEqual([
      ['name', 'note'],
      ['a "b", c', ''],
      ['two\nlines', 'true'],
    ]);
  });
});
