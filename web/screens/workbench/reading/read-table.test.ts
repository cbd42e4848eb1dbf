import { describe, expect, it } from 'vitest';
import { readTable } from './read-table.ts';
import { mostRows } from './table.ts';

const cut = (text: string) => {
  const { separator, decimal, hasHeader, columns, rows } = readTable(text);
  return { separator, decimal, hasHeader, columns, rows: rows.map(({ cells }) => cells) };
};

describe('a text as a table', () => {
  it.each([
    [
      'commas and a header',
      'km,rpm\n1,2\n3,4\n',
      ',',
      'point',
      true,
      ['km', 'rpm'],
      [
        ['1', '2'],
        ['3', '4'],
      ],
    ],
    [
      'a byte order mark and CRLF',
      '\ufeffkm;rpm\r\n1;2\r\n',
      ';',
      'point',
      true,
      ['km', 'rpm'],
      [['1', '2']],
    ],
    ['tabs, as a spreadsheet copies', 'a\tb\n1,5\t2\n', '\t', 'comma', true, ['a', 'b'], [['1,5', '2']]],
    [
      'decimal commas with semicolons',
      'a;b\n1,5;2,25\n3;4,75\n',
      ';',
      'comma',
      true,
      ['a', 'b'],
      [
        ['1,5', '2,25'],
        ['3', '4,75'],
      ],
    ],
    [
      'thousands with points and decimal commas',
      'a;b\n1.234,5;2\n',
      ';',
      'comma',
      true,
      ['a', 'b'],
      [['1.234,5', '2']],
    ],
    [
      'no header',
      '1,2\n3,4\n',
      ',',
      'point',
      false,
      ['column 1', 'column 2'],
      [
        ['1', '2'],
        ['3', '4'],
      ],
    ],
    [
      'quotes with separators, quotes and line breaks',
      '"a, b",c\n"say ""x""\nagain",5\n',
      ',',
      'point',
      true,
      ['a, b', 'c'],
      [['say "x"\nagain', '5']],
    ],
    [
      'a quote in the middle of a cell',
      'a,b\n5" bolt,3\n',
      ',',
      'point',
      true,
      ['a', 'b'],
      [['5" bolt', '3']],
    ],
    [
      'two columns of one name, and one of none',
      'km,km,\n1,2,3\n',
      ',',
      'point',
      true,
      ['km', 'km (2)', 'column 3'],
      [['1', '2', '3']],
    ],
    [
      'empty lines, and lines of separators alone',
      'a,b\n\n,\n1,2\n   \n',
      ',',
      'point',
      true,
      ['a', 'b'],
      [['1', '2']],
    ],
    [
      'rows of other lengths',
      'a,b\n1\n1,2,3\n',
      ',',
      'point',
      true,
      ['a', 'b', 'column 3'],
      [['1'], ['1', '2', '3']],
    ],
    [
      'the separator told in the first line',
      'sep=;\na;b\n1;2\n',
      ';',
      'point',
      true,
      ['a', 'b'],
      [['1', '2']],
    ],
    ['one column', 'rpm\n12\n14\n', ',', 'point', true, ['rpm'], [['12'], ['14']]],
    ['old line ends', 'a,b\r1,2\r', ',', 'point', true, ['a', 'b'], [['1', '2']]],
    [
      'names with prototypes',
      '__proto__,constructor\n1,2\n',
      ',',
      'point',
      true,
      ['__proto__', 'constructor'],
      [['1', '2']],
    ],
  ])('%s', (_, text, separator, decimal, hasHeader, columns, rows) =>
    expect(cut(text)).toEqual({ separator, decimal, hasHeader, columns, rows }),
  );

  it('keeps the numbers of lines as the text has them', () => {
    const { rows } = readTable('sep=,\na,b\n\n1,"two\nlines"\n3,4\n');
    expect(rows.map(({ line }) => line)).toEqual([5, 6]);
  });

  it('does as it is told about header and decimals', () => {
    expect(readTable('7;8\n1,234;2\n', { hasHeader: true, decimal: 'comma' })).toMatchObject({
      columns: ['7', '8'],
      decimal: 'comma',
    });
  });

  it.each([
    ['nothing', ' \n\t\n', /nothing in it/],
    ['a header alone', 'a,b\n', /no row below/],
    ['a quote that stays open', 'a,b\n1,"2\n3,4\n', /never closed/],
    ['a sheet as its program stores it', 'PK\u0003\u0004\u0000\u0000', /no text/],
    ['more rows than are read', `a,b\n${'1,2\n'.repeat(mostRows + 1)}`, /more than 100,000 rows/],
    ['more than 32 MiB', 'x'.repeat(33 * 1024 * 1024), /It is 33 MiB/],
    ['too many columns', `${'a,'.repeat(300)}\n${'1,'.repeat(300)}`, /301 columns/],
  ])('refuses %s', (_, text, words) => expect(() => readTable(text)).toThrow(words));

  it('takes as many rows as are read', () => {
    expect(readTable(`a,b\n${'1,2\n'.repeat(mostRows)}`).rows).toHaveLength(mostRows);
  });
});
