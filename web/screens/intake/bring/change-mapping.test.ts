import { describe, expect, it } from 'vitest';
import { mapping } from '#server/contract/mappings.ts';
import {
  alignColumns,
  setDay,
  setForm,
  setNameField,
  setTake,
  setUnit,
  setVehicle,
  takeGuesses,
} from './change-mapping.ts';

const plain = mapping.parse({
  columns: [
    { column: 'unit', takes: 'vehicle' },
    { column: 'stamp', takes: 'time' },
    { column: 'oil', takes: 'fluid_c', unit: 'degF' },
  ],
});
const takesOf = (one: typeof plain) =>
  Object.fromEntries(one.columns.map(({ column, takes }) => [column, takes]));

describe('setTake', () => {
  it('gives a field to one column, and takes it from another', () => {
    const changed = setTake(plain, 'oil 2', 'fluid_c', 'K');
    expect(takesOf(changed)).toEqual({ unit: 'vehicle', stamp: 'time', 'oil 2': 'fluid_c' });
    expect(changed.columns.at(-1)?.unit).toBe('K');
    expect(takesOf(setTake(changed, 'oil 2', null))).toEqual({ unit: 'vehicle', stamp: 'time' });
  });

  it('forgets a unit that the new field cannot have', () => {
    expect(setTake(plain, 'oil', 'speed_kmh', 'degF').columns.at(-1)?.unit).toBeNull();
  });

  it('parts a moment into day and clock instead of a whole one, and looks for it nowhere else', () => {
    const parted = setTake(setTake(setDay(plain, 'given'), 'stamp', 'clock'), 'day', 'date');
    expect(takesOf(parted)).toEqual({ unit: 'vehicle', oil: 'fluid_c', stamp: 'clock', day: 'date' });
    expect(parted.time.date).toBe('column');
    expect(takesOf(setTake(parted, 'both', 'time'))).toEqual({
      unit: 'vehicle',
      oil: 'fluid_c',
      both: 'time',
    });
  });

  it('names the vehicle in one place: a column, or elsewhere', () => {
    const elsewhere = setVehicle(plain, 'file_name');
    expect(takesOf(elsewhere)).toEqual({ stamp: 'time', oil: 'fluid_c' });
    expect(setTake(elsewhere, 'unit', 'vehicle').vehicle).toBe('column');
  });
});

it('keeps our own unit as none', () => {
  expect(setUnit(plain, 'oil', 'degC').columns.at(-1)?.unit).toBeNull();
  expect(setUnit(plain, 'oil', 'K').columns.at(-1)?.unit).toBe('K');
});

it('gives a field to one name of a long layout', () => {
  const first = setNameField(plain, 'TCC slip', 'slip_rpm', 'rps');
  expect(first.names).toEqual([{ name: 'TCC slip', field: 'slip_rpm', unit: 'rps' }]);
  const second = setNameField(first, 'slip', 'slip_rpm');
  expect(second.names).toEqual([{ name: 'slip', field: 'slip_rpm', unit: null }]);
  expect(setNameField(second, 'slip', null).names).toEqual([]);
});

it('finds columns that differ in capitals and spaces alone', () => {
  expect(alignColumns(plain, ['Unit', ' STAMP', 'oil']).columns.map(({ column }) => column)).toEqual([
    'Unit',
    ' STAMP',
    'oil',
  ]);
});

it('guesses columns anew when lines are cut otherwise, each field once and as the layout allows', () => {
  const cut = setForm(plain, { separator: ';' });
  expect(cut.columns).toEqual([]);
  const see = (column: string, takes: 'vehicle' | 'slip_rpm' | 'name') => ({
    column,
    samples: [],
    guess: { takes, unit: null },
    why: '',
  });
  const look = {
    columns: [see('a', 'vehicle'), see('b', 'slip_rpm'), see('c', 'slip_rpm'), see('d', 'name')],
    names: [
      { name: 'slip', values: 3, samples: [], guess: { field: 'slip_rpm' as const, unit: 'rpm' as const } },
    ],
  };
  expect(takesOf(takeGuesses(cut, look))).toEqual({ a: 'vehicle', b: 'slip_rpm' });
  expect(takeGuesses(cut, look).names).toEqual([]);
  const long = takeGuesses({ ...cut, layout: 'long' }, look);
  expect(takesOf(long)).toEqual({ a: 'vehicle', d: 'name' });
  expect(long.names).toHaveLength(1);
});
