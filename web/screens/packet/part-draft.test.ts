import { describe, expect, it } from 'vitest';
import { part } from '#server/contract/repair.ts';
import { metricUnits, type Units } from '#web/format/units.ts';
import { emptyPart, readPart, toPartDraft } from './part-draft.ts';

const imperial: Units = { distance: 'mi', temperature: 'F' };
const converter = part.parse({
  kind: 'converter',
  what: 'TC-4471',
  source: 'rebuilt',
  supplier: 'Quenby Rebuilds',
  price: 1180.5,
  core_deposit: 250,
  core: 'to_return',
});

it('reads what it wrote', () => {
  expect(readPart(toPartDraft(converter, metricUnits), metricUnits)).toEqual({ part: converter });
});

it('asks for the kind, and takes a price with a decimal comma', () => {
  expect(readPart(emptyPart, metricUnits).faults).toEqual({ kind: 'Choose what was replaced.' });
  expect(readPart({ ...emptyPart, kind: 'wiring', price: '12,50' }, metricUnits).part).toMatchObject({
    price: 12.5,
    core_deposit: null,
  });
  expect(readPart({ ...emptyPart, kind: 'wiring', price: 'dear' }, metricUnits).faults).toHaveProperty(
    'price',
  );
});

describe('what a used converter had run', () => {
  const used = part.parse({ kind: 'converter', source: 'used', run_km: 118_000 });
  const typed = (had_run: string, more = {}) => ({
    ...emptyPart,
    kind: 'converter',
    source: 'used',
    had_run,
    ...more,
  });

  it.each([118_000, 120_000.7, 0.1, 4_999_999.9])(
    'comes back as it was where nobody touches it: %s km',
    (run_km) => {
      for (const units of [metricUnits, imperial])
        expect(readPart(toPartDraft({ ...used, run_km }, units), units).part?.run_km).toBe(run_km);
    },
  );

  it('is written whole where it was typed whole', () => {
    const { part: read } = readPart(typed('74,565'), imperial);
    // 74,565 miles of 1.609344 km
    expect(read?.run_km).toBe(120_000.7);
    expect(toPartDraft({ ...used, run_km: 120_000.7 }, imperial).had_run).toBe('74565');
    expect(readPart(typed('5,000,001'), metricUnits).faults).toEqual({ had_run: 'Not above 5,000,000 km.' });
    expect(readPart(typed('many'), metricUnits).faults).toHaveProperty('had_run');
    expect(readPart(typed(''), metricUnits).part?.run_km).toBeNull();
  });

  it('keeps the unit in which it was typed', () => {
    expect(readPart(typed('74,565', { had_run_unit: 'mi' }), metricUnits).part?.run_km).toBe(120_000.7);
  });

  it('is of used converters and transmissions alone', () => {
    expect(readPart(typed('118000', { kind: 'transmission' }), metricUnits).part?.run_km).toBe(118_000);
    for (const other of [{ source: 'rebuilt' }, { kind: 'cooler' }])
      expect(readPart(typed('118000', other), metricUnits).part?.run_km).toBeNull();
    for (const other of [{ source: 'rebuilt' }, { kind: 'cooler' }])
      expect(part.safeParse({ ...used, ...other }).error?.issues[0]?.path).toEqual(['run_km']);
  });
});
