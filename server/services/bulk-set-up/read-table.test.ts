import { describe, expect, it } from 'vitest';
import { readTable } from './read-table.ts';

const isName = (cell: string) => ['id', 'name', 'bays'].includes(cell);
const read = (text: string) => readTable(Buffer.from(text), isName);

describe('a table', () => {
  it.each([
    [',', 'id,name\nn,"North, old"'],
    [';', 'id;name\nn;North, old'],
    ['\t', '\ufeffid\tname\r\nn\tNorth, old\r\n'],
    [';', '\n\nid;"na,me";name\nn;;North, old;;\n'],
    [',', 'id\nn'],
  ])('has its cells parted by %j', (separator, text) => {
    const table = read(text);
    expect(table.separator).toBe(separator);
    expect(table.rows[0]?.cells.filter((cell) => cell !== '')).toEqual(
      table.header.cells.length === 1 ? ['n'] : ['n', 'North, old'],
    );
    expect(table.faults).toEqual([]);
  });

  it('counts the lines of the file, whatever is empty or goes over several', () => {
    const { header, rows } = read('\r\nid,name\r\n"a\r\nb","c\nd"\r\n,\r\n\r\ne,f\r\ng,h');
    expect([header.line, ...rows.map(({ line }) => line)]).toEqual([2, 3, 8, 9]);
  });

  it('tells a line with cells beyond the header, and one with too few is filled up', () => {
    const { rows, faults } = read('id,name\na,b,c\nd\ne,f,,\n');
    expect(rows.map(({ cells }) => cells)).toEqual([['d'], ['e', 'f', '', '']]);
    expect(faults).toEqual([{ line: 2, field: '', message: 'has 3 cells, but the header names 2' }]);
  });

  it.each([
    [Uint8Array.of(0xff, 0xfe, 0x69, 0), /UTF-16/],
    [Uint8Array.of(0xe4), /not in UTF-8/],
    [Buffer.from('id,name\na,"b"c\n'), /^Line 2: has a quote where none may be/],
    [Buffer.from('id,name\na,"b\nc\n'), /quote before it is never closed/],
    [Buffer.from(`id,name\na,${'b'.repeat(70_000)}\n`), /^Line 2: is longer than 65536 characters/],
    [Buffer.from(' \n\n'), /no line/],
  ])('that cannot be read says why: %#', (bytes, fault) => {
    expect(() => readTable(bytes, isName)).toThrow(fault);
  });
});
