import { expect, it } from 'vitest';
import { formatMoment } from '#web/format/format-date.ts';
import { listFieldChanges } from './list-field-changes.ts';

it('says each field, old and new', () => {
  expect(
    listFieldChanges({
      before: { role: 'shop', depots: null, closed: false },
      after: { role: 'planner', depots: ['harrow-vale', 'mossgate'], closed: true },
    }),
  ).toEqual([
    { field: 'role', from: 'shop', to: 'planner' },
    { field: 'depots', from: 'all depots', to: 'harrow-vale, mossgate' },
    { field: 'closed', from: 'no', to: 'yes' },
  ]);
});

it('names depots and platforms where the name is known', () => {
  const names = new Map([['mossgate', 'Mossgate (hills)']]);
  const nameOf = (field: string, id: string) =>
    field === 'depot' || field === 'depots' ? (names.get(id) ?? id) : id;
  const after = { depot: 'mossgate', depots: ['mossgate', 'gone'], note: 'mossgate' };
  expect(listFieldChanges({ before: null, after }, nameOf).map(({ to }) => to)).toEqual([
    'Mossgate (hills)',
    'Mossgate (hills), gone',
    'mossgate',
  ]);
});

it('gives numbers the unit that ends the name of their field', () => {
  const after = {
    limit_rpm: 150,
    band_edges_pct: [70, 85],
    life_km: null,
    supplier: 'km',
    reason_c: 'c',
    s: 3,
  };
  expect(listFieldChanges({ before: null, after }).map(({ field, to }) => `${field}: ${to}`)).toEqual([
    'limit: 150 rpm',
    'band edges: 70, 85 %',
    'life: nothing',
    'supplier: km',
    'reason: c',
    's: 3',
  ]);
});

it('has no old where something is created, and no new where it is deleted', () => {
  expect(listFieldChanges({ before: null, after: { bays: 2 } })).toEqual([
    { field: 'bays', from: null, to: '2' },
  ]);
  expect(listFieldChanges({ before: { bays: 2 }, after: null })).toEqual([
    { field: 'bays', from: '2', to: null },
  ]);
  expect(listFieldChanges({ before: null, after: null })).toEqual([]);
});

it('takes parts of a part apart and leaves out what stayed', () => {
  const limits = { cold_fluid_c: 55, low_load_pct: 15 };
  expect(
    listFieldChanges({ before: { gate: limits }, after: { gate: { ...limits, cold_fluid_c: 50 } } }),
  ).toEqual([{ field: 'gate, cold fluid', from: '55 °C', to: '50 °C' }]);
});

it('names the figures of solenoid and converter, also where there were none', () => {
  const solenoid = { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 25 };
  const after = { solenoid, converter: { price: 1800, core_deposit: 600, spare_cores: 1 } };
  const say = (changed: Parameters<typeof listFieldChanges>[0]) =>
    listFieldChanges(changed).map(({ field, from, to }) => `${field}: ${from} → ${to}`);
  expect(say({ before: { solenoid: null, converter: null }, after })).toEqual([
    'solenoid, coil: nothing → 5.5 ohm',
    'solenoid, supply: nothing → 24 V',
    'solenoid, wiring: nothing → 0.5 ohm',
    'solenoid, tolerance: nothing → 25 %',
    'converter, price: nothing → 1800',
    'converter, core deposit: nothing → 600',
    'converter, spare cores: nothing → 1',
  ]);
  expect(say({ before: { solenoid }, after: { solenoid: { ...solenoid, ohm: 6 } } })).toEqual([
    'solenoid, coil: 5.5 ohm → 6 ohm',
  ]);
});

it('words moments, and what is not there', () => {
  const at = '2026-03-04T08:30:00Z';
  expect(listFieldChanges({ before: { expires_at: null }, after: { expires_at: at } })).toEqual([
    { field: 'expires at', from: 'nothing', to: formatMoment(at) },
  ]);
  expect(listFieldChanges({ before: {}, after: { vin: '', codes: [] } })).toEqual([
    { field: 'codes', from: 'nothing', to: 'none' },
  ]);
});

it('says the things of a list, such as special days, by their parts', () => {
  const after = {
    special_days: [
      { day: '2026-12-24', bays: null, hours: { from: '07:00', to: '12:00' }, note: 'short day' },
      { day: '2026-12-25', bays: 0, hours: null, note: '' },
    ],
  };
  expect(listFieldChanges({ before: { special_days: [] }, after })).toEqual([
    {
      field: 'special days',
      from: 'none',
      to: 'day 2026-12-24 hours from 07:00 to 12:00 note short day; day 2026-12-25 bays 0',
    },
  ]);
});
