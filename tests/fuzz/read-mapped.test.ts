import fc from 'fast-check';
import { it } from 'vitest';
import { columnTakes, fileUnits, type Given, mappedFields, mapping } from '#server/contract/mappings.ts';
import { checkReading } from '#server/services/intake/check-reading.ts';
import { readMapped } from '#server/services/intake/mapped/read-mapped.ts';
import { proposeMapping } from '#server/services/intake/propose/propose-mapping.ts';
import { readAgain } from '#server/services/intake/read-again.ts';
import { newReadNotes } from '#server/services/intake/read-with.ts';
import { fuzz, hold, holdEqual } from './fuzz.ts';
import { hostileText, numberToken } from './hostile-values.ts';
import { inPieces, mutated, pieceSizes } from './mutate-bytes.ts';
import { comparable, holdStorable, INSIDE, NOW_MS, readBody } from './read-body.ts';

const separator = fc.constantFrom(',' as const, ';' as const, '\t' as const, '|' as const);
const names = ['bus', 'zeit', 'km', 'slip', 'duty', 'name', 'wert', 'einheit', 'Öl'];
const unit = fc.constantFrom(null, null, null, ...fileUnits);

const wideColumns = fc.constant([
  { column: 'bus', takes: 'vehicle' as const },
  { column: 'zeit', takes: 'time' as const },
  { column: 'km', takes: 'odometer_km' as const },
  { column: 'slip', takes: 'slip_rpm' as const },
  { column: 'duty', takes: 'duty_pct' as const },
]);
const longColumns = fc.constant([
  { column: 'bus', takes: 'vehicle' as const },
  { column: 'zeit', takes: 'time' as const },
  { column: 'name', takes: 'name' as const },
  { column: 'wert', takes: 'value' as const },
  { column: 'einheit', takes: 'unit' as const },
]);
const anyColumns = fc.array(
  fc.record({ column: fc.constantFrom(...names, 'column 1'), takes: fc.constantFrom(...columnTakes), unit }),
  { maxLength: 8 },
);
const longNames = fc.constant([
  { name: 'km', field: 'odometer_km' as const },
  { name: 'slip', field: 'slip_rpm' as const },
  { name: 'duty', field: 'duty_pct' as const },
]);
const anyNames = fc.array(
  fc.record({ name: fc.constantFrom(...names), field: fc.constantFrom(...mappedFields), unit }),
  { maxLength: 4 },
);

const common = {
  separator,
  decimal: fc.constantFrom('.' as const, ',' as const),
  encoding: fc.constantFrom('utf-8' as const, 'windows-1252' as const),
  skip_lines: fc.constantFrom(0, 0, 0, 2),
  join_within_s: fc.constantFrom(0, 0.5, 10),
  time: fc.record({
    date: fc.constantFrom('column' as const, 'column' as const, 'file_name' as const, 'given' as const),
    form: fc.constantFrom(...(['text', 'text', 'unix_s', 'unix_ms', 'sheet_days', 'seconds'] as const)),
    order: fc.constantFrom('ymd' as const, 'dmy' as const, 'mdy' as const),
    zone: fc.constantFrom(null, 'UTC', 'Europe/Berlin', '+02:00', 'Mars'),
  }),
};
const anyMapping = fc.oneof(
  fc.record({ ...common, columns: wideColumns }),
  fc.record({ ...common, layout: fc.constant('long' as const), columns: longColumns, names: longNames }),
  fc.record({
    ...common,
    layout: fc.constantFrom('wide' as const, 'long' as const),
    header: fc.boolean(),
    units_line: fc.boolean(),
    vehicle: fc.constantFrom('column' as const, 'file_name' as const, 'given' as const),
    columns: anyColumns,
    names: anyNames,
  }),
);
const given: fc.Arbitrary<Given> = fc.constantFrom<Given>(
  {},
  {
    zone: 'UTC',
    vehicle: 'B-1',
    date: '2026-03-04',
    start: '2026-03-04T05:06:07Z',
    file: 'a_2026-03-04.csv',
  },
);

const cell = fc.oneof(
  numberToken,
  hostileText,
  fc.constantFrom(
    '',
    '-',
    '"',
    '"a"',
    'B-1',
    'km',
    'slip',
    'duty',
    '12,5',
    '1.234,5 km',
    '85 %',
    '2124RPM',
    '93 bar',
  ),
  fc.constantFrom(
    '2026-03-04 05:06:07',
    '04.03.2026 5:06',
    '5:06 PM',
    '1772600767',
    '46085,25',
    '29.03.2026 02:30',
  ),
);
const body = fc
  .tuple(
    separator,
    fc.array(fc.array(cell, { maxLength: 9 }), { maxLength: 8 }),
    fc.constantFrom('\n', '\r\n'),
  )
  .map(([parted, rows, end]) =>
    Buffer.from([names.join(parted), ...rows.map((cells) => cells.join(parted))].join(end)),
  );

it('reads any bytes by any mapping, the same however they are cut, and reads each line again as it did', async () => {
  const input = fc.tuple(mutated(body, 2), pieceSizes, anyMapping, given);
  await fuzz('mapped', input, async ([bytes, sizes, chosen, told]) => {
    const notes = newReadNotes();
    const by = { mapping: mapping.parse(chosen), given: told };
    const whole = await readBody((chunks) => readMapped(chunks, by, notes), [bytes]);
    const cut = await readBody((chunks) => readMapped(chunks, by, newReadNotes()), inPieces(bytes, sizes));
    holdEqual(comparable(cut), comparable(whole));
    const isLong = by.mapping.layout === 'long';
    if (isLong) hold(whole.lines.length <= (notes.rows ?? 0), () => 'more lines than rows');
    for (const line of whole.lines) {
      const checked =
        line.errors === null ? checkReading(line.value, NOW_MS) : { reading: null, errors: line.errors };
      if (checked.reading !== null) holdStorable(checked.reading);
      else hold((checked.errors ?? []).length > 0, () => 'refused without a reason');
      for (const { message } of checked.errors ?? [])
        hold(message !== '' && !INSIDE.test(message), () => message);
      if (notes.readWith === null || isLong || line.raw.includes('\ufffd')) continue;
      const again = readAgain(notes.readWith, line.raw);
      if (line.errors === null && again.errors === null)
        holdEqual(JSON.stringify(again.value), JSON.stringify(line.value));
    }
  });
});

it('proposes a mapping for any bytes', async () => {
  await fuzz('proposed', fc.tuple(mutated(body, 2), given), ([bytes, told]) => {
    const { mapping: proposed, columns, doubts } = proposeMapping(bytes, told);
    holdEqual(JSON.stringify(mapping.parse(proposed)), JSON.stringify(proposed));
    hold(
      proposed.columns.every(({ column }) => columns.some((one) => one.column === column)),
      () => 'takes a column that is not there',
    );
    hold(
      doubts.every(({ message }) => /^\S.*\.$/s.test(message)),
      () => JSON.stringify(doubts),
    );
  });
});
