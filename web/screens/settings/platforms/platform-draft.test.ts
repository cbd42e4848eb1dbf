import { describe, expect, it } from 'vitest';
import { platformInput } from '#server/contract/fleet.ts';
import { metricUnits } from '#web/format/units.ts';
import { applyChange, newPlatform, readDraft, toDraft, toPreview, warnOf } from './platform-draft.ts';

const bus = platformInput.parse({ id: 'bus', name: 'Bus', limit_rpm: 150, life_km: 300_000 });
const miles = { distance: 'mi', temperature: 'F' } as const;

const change = (patch: object, units: Parameters<typeof toDraft>[1] = metricUnits) =>
  readDraft({ ...toDraft(bus, units), ...patch }, bus, units);

describe('what stands in the fields', () => {
  it('is a new platform as the server would make it', () => {
    const { band_edges_pct: _, ...usual } = platformInput.parse({ id: 'x', name: 'x' });
    expect({ ...newPlatform, id: 'x', name: 'x' }).toMatchObject(usual);
  });

  it('changes nothing where nothing was typed, in whatever units', () => {
    for (const units of [metricUnits, miles])
      expect(change({}, units)).toEqual({ change: { id: 'bus', name: 'Bus' }, faults: {}, touched: false });
  });

  it('changes what was typed alone', () => {
    const { change: made } = change({ limit_rpm: '140', lost_day: '75', fluid_c: '90', life_km: '' });
    expect(made).toEqual({
      id: 'bus',
      name: 'Bus',
      limit_rpm: 140,
      life_km: null,
      costs: { lost_day: 75 },
      reference: { fluid_c: 90 },
    });
  });

  it('is as it is stored once it was saved, however it was typed', () => {
    const made = change({ life_km: '250,000', limit_rpm: '140.0' }).change;
    const after = applyChange(bus, made ?? { id: '', name: '' });
    expect(after).toEqual({ ...bus, life_km: 250_000, limit_rpm: 140 });
    expect(readDraft(toDraft(after, metricUnits), after, metricUnits).touched).toBe(false);
  });

  it('is read in the reader’s units', () => {
    expect(toDraft(bus, miles)).toMatchObject({ life_km: '186411', fluid_c: '185' });
    const { change: made } = change({ life_km: '200000', fluid_c: '194' }, miles);
    expect(made).toMatchObject({ life_km: 321_869, reference: { fluid_c: 90 } });
  });

  it.each([
    [{ limit_rpm: '0' }, 'limit_rpm', 'Above 0: at a limit of 0 every clutch counts as failed.'],
    [{ limit_rpm: '-4' }, 'limit_rpm', 'Not below 1 rpm.'],
    [{ inspection: '-1' }, 'inspection', 'Not below 0.'],
    [{ inspection_hours: '2.1' }, 'inspection_hours', 'In steps of 0.25 h.'],
    [{ life_km: '0' }, 'life_km', 'Not below 1 km.'],
    [{ name: ' ' }, 'name', 'A name is needed.'],
    [{ duty_pct: '120' }, 'duty_pct', 'Not above 100 %.'],
  ])('is refused at its field: %j', (patch, field, fault) => {
    expect(change(patch)).toEqual({ change: null, faults: { [field]: fault }, touched: true });
  });

  it('needs an id that the server takes where it is new', () => {
    const read = (id: string) =>
      readDraft({ ...toDraft(newPlatform, metricUnits), name: 'Van', id }, newPlatform, metricUnits, ['bus']);
    expect(read('bus').faults.id).toBe('Another platform has this id.');
    expect(read('').faults.id).toBe('An id is needed.');
    expect(read('*').faults.id).toContain('begins with a letter');
    expect(platformInput.parse(read('van 3').change)).toMatchObject({ id: 'van 3', limit_rpm: 150 });
  });
});

describe('what the list can be tried with', () => {
  it('is limit, life and costs; the rest moves nothing, or cannot be known before', () => {
    expect(toPreview(change({ inspection_hours: '4', name: 'Big bus' }).change, bus)).toBe(null);
    expect(toPreview(change({ duty_pct: '80' }).change, bus)).toBe(null);
    expect(toPreview(change({ limit_rpm: '140', inspection: '200' }).change, bus)).toEqual({
      platform: { id: 'bus', limit_rpm: 140, costs: { ...bus.costs, inspection: 200 } },
    });
    expect(toPreview(change({ limit_rpm: '0' }).change, bus)).toBe(null);
  });
});

it('warns where inspecting never pays', () => {
  expect(warnOf(change({}).change, bus)).toBe(null);
  expect(warnOf(change({ planned_repair: '9000' }).change, bus)).toContain('never pays');
  expect(warnOf(change({ planned_repair: '9500' }).change, bus)).toContain('the lower the vehicle stands');
});
