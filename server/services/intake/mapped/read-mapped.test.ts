import { describe, expect, it } from 'vitest';
import { type Given, type MappingInput, mapping as mappingSchema } from '#server/contract/mappings.ts';
import { BodyFault } from '#server/services/intake/body-fault.ts';
import type { Line } from '#server/services/intake/line.ts';
import { readAgain } from '#server/services/intake/read-again.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { readMapped } from './read-mapped.ts';

const columns: MappingInput['columns'] = [
  { column: 't', takes: 'time' },
  { column: 'km', takes: 'odometer_km' },
  { column: 'slip', takes: 'slip_rpm' },
  { column: 'duty', takes: 'duty_pct' },
];
const ofBus: MappingInput['columns'] = [{ column: 'bus', takes: 'vehicle' }, ...columns];
const long: MappingInput = {
  layout: 'long',
  columns: [
    { column: 'bus', takes: 'vehicle' },
    { column: 't', takes: 'time' },
    { column: 'n', takes: 'name' },
    { column: 'v', takes: 'value' },
  ],
  names: [
    { name: 'km', field: 'odometer_km' },
    { name: 'slip', field: 'slip_rpm' },
    { name: 'duty', field: 'duty_pct' },
  ],
  time: { form: 'unix_s' },
};

async function read(text: string | Buffer, input: MappingInput, given: Given = {}, breaks = false) {
  const notes = newReadNotes();
  async function* chunks() {
    yield Buffer.from(text);
    if (breaks) throw new BodyFault('body_broken', 'gone', { cutOff: true });
  }
  const lines: Line[] = [];
  let fault: unknown = null;
  try {
    const body = { mapping: mappingSchema.parse(input), given };
    for await (const block of readMapped(chunks(), body, notes)) lines.push(...block);
  } catch (error) {
    fault = error;
  }
  return { lines, notes, fault };
}

const at = ({ value }: Line) => (value as { at?: string } | undefined)?.at;
const says = ({ errors }: Line) => errors?.map(({ field, message }) => `${field} ${message}`.trim()) ?? null;

describe('rows without a date', () => {
  const input: MappingInput = { vehicle: 'given', columns, time: { date: 'given', zone: 'UTC' } };
  const given = { vehicle: 'B-1', date: '2026-03-04' };

  it('follow the clock into the next day, and may say their day themselves', async () => {
    const text = 't,km,slip,duty\n23:59:59,1,2,3\n0:00:01,1,2,3\n2026-03-07 10:00,1,2,3\n0:00:02,1,2,3';
    const { lines } = await read(text, input, given);
    expect(lines.map(at)).toEqual([
      '2026-03-04T23:59:59.000Z',
      '2026-03-05T00:00:01.000Z',
      '2026-03-07T10:00:00.000Z',
      '2026-03-05T00:00:02.000Z',
    ]);
  });

  it('are read again on their day in a file of one day, and only with a date in one of several', async () => {
    const oneDay = await read('t,km,slip,duty\n5:06,1,x,3', input, given);
    const { readWith } = oneDay.notes;
    if (readWith === null) throw new Error('nothing says how it was read');
    expect(at(readAgain(readWith, '5:06,1,2,3'))).toBe('2026-03-04T05:06:00.000Z');
    const two = await read('t,km,slip,duty\n23:00,1,2,3\n5:06,1,x,3', input, given);
    if (two.notes.readWith === null) throw new Error('nothing says how it was read');
    expect(says(readAgain(two.notes.readWith, '5:06,1,2,3'))?.[0]).toMatch(
      /^at is of a file over several days/,
    );
    expect(at(readAgain(two.notes.readWith, '2026-03-05 5:06,1,2,3'))).toBe('2026-03-05T05:06:00.000Z');
  });
});

describe('times', () => {
  it.each([
    ['unix_s', {}, '1772600767.5', '2026-03-04T05:06:07.500Z'],
    ['unix_ms', {}, '1772600767500', '2026-03-04T05:06:07.500Z'],
    // 46085 days after 1899-12-30 is 2026-03-04; a quarter of a day is 6 o'clock.
    ['sheet_days', { zone: '+01:00' }, '46085.25', '2026-03-04T05:00:00.000Z'],
    ['seconds', { start: '2026-03-04T05:06:07+01:00' }, '90.5', '2026-03-04T04:07:37.500Z'],
  ] as const)('are read as %s', async (form, given, cell, expected) => {
    const input: MappingInput = { columns: ofBus, time: { form } };
    const { lines } = await read(`bus,t,km,slip,duty\nB,${cell},1,2,3`, input, given);
    expect(lines.map(at)).toEqual([expected]);
  });

  it('are put together from two columns', async () => {
    const split: MappingInput = {
      columns: [
        ...ofBus.filter(({ takes }) => takes !== 'time'),
        { column: 'd', takes: 'date' },
        { column: 'c', takes: 'clock' },
      ],
      time: { order: 'dmy', zone: 'UTC' },
    };
    const { lines } = await read('bus,d,c,km,slip,duty\nB,4.3.26 00:00,1899-12-30 05:06:07,1,2,3', split);
    expect(lines.map(at)).toEqual(['2026-03-04T05:06:07.000Z']);
  });
});

describe('rows of other widths', () => {
  const input: MappingInput = { columns: ofBus, separator: ';', time: { zone: 'UTC' } };
  const good = 'B;2026-03-04 05:06:07;1;2;3';

  it('are refused, but for empty cells at the end', async () => {
    const { lines } = await read(
      `bus;t;km;slip;duty;\n${good};\n${good}\n${good};;;\n${good};;x\nB;1\n"B;1\n`,
      input,
    );
    expect(lines.map(says)).toEqual([
      null,
      null,
      null,
      ['has 7 cells, but the header names 6'],
      ['has 2 cells, but the header names 6'],
      ['opens a quote that is never closed'],
    ]);
  });

  it('leave out the line of units below the names, and that line alone', async () => {
    const text = 'bus,t,km,slip,duty\n,,km,rpm,%\n7,1772600000,1,2,85\n7,x,km,rpm,%\n';
    const input: MappingInput = { columns: ofBus, units_line: true, time: { form: 'unix_s' } };
    const { lines } = await read(text, input);
    expect(lines.map(({ line, errors }) => [line, errors === null])).toEqual([
      [3, true],
      [4, false],
    ]);
    const asRow = await read(text, { ...input, units_line: false });
    expect(asRow.lines).toHaveLength(3);
  });

  it('without a header go by the first row', async () => {
    const bare: MappingInput = {
      ...input,
      header: false,
      columns: ofBus.map((one, i) => ({ ...one, column: `column ${i + 1}` })),
    };
    const { lines } = await read(`${good}\n${good};4\n`, bare);
    expect(lines.map(says)).toEqual([null, ['has 6 cells, but the first row has 5']]);
  });
});

describe('a row for each value', () => {
  it('joins the rows of a moment, by time or by name, and counts every row', async () => {
    const byTime =
      'bus,t,n,v\nA,10,km,1\nA,10,slip,2\nA,10,duty,3\nA,20,km,4\nA,20,oil,9\nA,20,duty,6\nA,20,slip,5\n';
    const byName =
      'bus,t,n,v\nA,10,km,1\nA,20,km,4\nA,10,slip,2\nA,20,slip,5\nA,10,duty,3\nA,20,duty,6\nA,20,oil,9\n';
    for (const text of [byTime, byName]) {
      const { lines, notes } = await read(text, long);
      expect(lines.map(({ value }) => value)).toEqual([
        { vehicle: 'A', at: '1970-01-01T00:00:10.000Z', odometer_km: 1, slip_rpm: 2, duty_pct: 3 },
        { vehicle: 'A', at: '1970-01-01T00:00:20.000Z', odometer_km: 4, slip_rpm: 5, duty_pct: 6 },
      ]);
      const rows = lines.reduce((sum, { raw }) => sum + raw.split('\n').length, 0);
      expect(rows + (notes.leftOut.get('oil') ?? 0)).toBe(notes.rows);
      expect(notes.rows).toBe(7);
    }
  });

  it('joins what comes within the window, and begins the next moment where a name comes again', async () => {
    const text =
      'bus,t,n,v\nA,10,km,1\nA,10.4,slip,2\nA,9.5,duty,3\nA,11,km,4\nA,11.4,slip,5\nA,11.9,duty,6\n';
    const { lines } = await read(text, { ...long, join_within_s: 1 });
    expect(lines.map(({ value }) => (value as { slip_rpm: number }).slip_rpm)).toEqual([2, 5]);
    expect(lines.map(at)).toEqual(['1970-01-01T00:00:10.000Z', '1970-01-01T00:00:11.000Z']);
  });

  it('refuses a value that comes twice, without a name, or that is none, and goes on', async () => {
    const text =
      'bus,t,n,v\nA,10,km,1\nA,10,km,1\nA,10,km,2\nA,10,,2\nA,10,slip,x\nA,10,slip,2\nA,10,duty,-\n';
    const { lines } = await read(text, long);
    expect(lines.map(({ line }) => line)).toEqual([4, 5, 6, 2]);
    expect(lines.map(says)).toEqual([
      ['odometer_km comes twice for this moment, with another value'],
      ['has no name of its value'],
      ['slip_rpm is not a number'],
      null,
    ]);
    expect(lines[3]?.raw.split('\n')).toHaveLength(4);
  });

  it('reads a refused moment again from its rows, corrected', async () => {
    const { lines, notes } = await read('bus,t,n,v\nA,10,km,1\nA,10,duty,3\n', long);
    if (notes.readWith === null) throw new Error('nothing says how it was read');
    const raw = `${lines[0]?.raw}\nA,10,slip,2`;
    expect(readAgain(notes.readWith, raw).value).toMatchObject({ odometer_km: 1, slip_rpm: 2, duty_pct: 3 });
    expect(says(readAgain(notes.readWith, `${raw}\nA,20,km,2`))).toEqual([
      'makes 2 readings, where one is expected',
    ]);
    expect(says(readAgain(notes.readWith, 'A,10,oil,2'))).toEqual(['holds nothing that is taken']);
  });

  it('keeps a moment that the end of a broken body cuts as refused, so that it cannot stand in the way of the whole', async () => {
    const { lines, fault } = await read('bus,t,n,v\nA,10,km,1\nA,10,slip,2\nA,10,du', long, {}, true);
    expect(fault).toBeInstanceOf(BodyFault);
    expect(lines.map(says)).toEqual([
      ['breaks off: the body ended within this line'],
      ['breaks off: the body ended before this moment was whole'],
    ]);
  });
});

it('takes a text with the mark of UTF-8 for that, though the mapping says Windows-1252', async () => {
  const input: MappingInput = { columns: ofBus, encoding: 'windows-1252', time: { zone: 'UTC' } };
  const row = 'bus,t,km,slip,duty\nBü–€,2026-03-04 05:06:07,1,2,3';
  const marked = await read(`\ufeff${row}`, input);
  expect(marked.lines[0]?.value).toMatchObject({ vehicle: 'Bü–€' });
  const bytes = Buffer.from(row.replace('–', '\u0096').replace('€', '\u0080'), 'latin1');
  expect((await read(bytes, input)).lines[0]?.value).toMatchObject({ vehicle: 'Bü–€' });
});
