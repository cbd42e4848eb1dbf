import { describe, expect, it } from 'vitest';
import { platformInput } from '#server/contract/fleet.ts';
import { metricUnits } from '#web/format/units.ts';
import { applyChange, readDraft, toDraft } from './platform-draft.ts';
import { sayExpectedCurrent } from './say-expected-current.ts';
import { readSolenoid, usualFigures } from './shop-groups.ts';

const bare = platformInput.parse({ id: 'bus', name: 'Bus' });
const known = platformInput.parse({
  id: 'bus',
  name: 'Bus',
  solenoid: { ohm: 5.5, supply_v: 24 },
  converter: { price: 1800, core_deposit: 600 },
});
const read = (before: typeof bare, patch: object) =>
  readDraft({ ...toDraft(before, metricUnits), ...patch }, before, metricUnits);
const noSolenoid = { ohm: '', supply_v: '', wiring_ohm: '', tolerance_pct: '' };

it('takes for an empty field what the server takes', () => {
  const { ohm: _, supply_v: __, ...solenoid } = known.solenoid ?? {};
  expect({ ...solenoid, spare_cores: known.converter?.spare_cores }).toEqual(usualFigures);
});

describe('the groups of the shop', () => {
  it('change by what was typed alone, with a comma before decimals too', () => {
    expect(read(known, { ohm: '6,2' }).change).toEqual({ id: 'bus', name: 'Bus', solenoid: { ohm: 6.2 } });
    expect(read(known, { spare_cores: '2' }).change?.converter).toEqual({ spare_cores: 2 });
    expect(read(known, { tolerance_pct: '' }).change?.solenoid).toEqual({ tolerance_pct: 25 });
    expect(read(known, {}).touched).toBe(false);
  });

  it('are taken away once all of their fields are empty, and each by itself', () => {
    const { change } = read(known, noSolenoid);
    expect(change).toEqual({ id: 'bus', name: 'Bus', solenoid: null });
    expect(applyChange(known, change ?? { id: '', name: '' })).toEqual({ ...known, solenoid: null });
  });

  it('are sent whole where they are new', () => {
    const { change } = read(bare, { ohm: '8', supply_v: '12', price: '1,800', core_deposit: '600' });
    expect(change?.solenoid).toEqual({ ohm: 8, supply_v: 12, wiring_ohm: 0.5, tolerance_pct: 25 });
    expect(change?.converter).toEqual({ price: 1800, core_deposit: 600, spare_cores: 0 });
    expect(platformInput.parse(change)).toEqual(applyChange(bare, change ?? { id: '', name: '' }));
  });

  it.each([
    [{ ohm: '8' }, 'supply_v', 'A figure is needed, or leave all 4 empty.'],
    [{ price: '900' }, 'core_deposit', 'A figure is needed, or leave all 3 empty.'],
    [{ ohm: '0', supply_v: '12' }, 'ohm', 'Not below 0.01 ohm.'],
    [{ ohm: '8', supply_v: '12', tolerance_pct: '95' }, 'tolerance_pct', 'Not above 90 %.'],
    [{ price: '9', core_deposit: '9', spare_cores: '1.5' }, 'spare_cores', 'A whole number is needed.'],
  ])('are refused at their field: %j', (patch, field, fault) => {
    expect(read(bare, patch)).toEqual({ change: null, faults: { [field]: fault }, touched: true });
  });
});

describe('the expected current', () => {
  const say = (patch: object, before = known) => {
    const solenoid = readSolenoid({ ...toDraft(before, metricUnits), ...patch }, before);
    return solenoid === undefined ? undefined : sayExpectedCurrent(solenoid);
  };

  // Ohm's law: 24 V over 6 ohm is 4 A, and 25 % of it 1 A; 12 V over 8 ohm is 1.5 A, and 10 % of it 0.15 A.
  it('is the supply over coil and wiring, with its tolerance as a range', () => {
    expect(say({})).toBe('Expected current: 24 V / (5.5 + 0.5) ohm = 4.0 A; right from 3.0 to 5.0 A.');
    expect(say({ ohm: '7', supply_v: '12', wiring_ohm: '1', tolerance_pct: '10' })).toBe(
      'Expected current: 12 V / (7 + 1) ohm = 1.5 A; right from 1.35 to 1.65 A.',
    );
  });

  it('follows as it is typed, also while another field is wrong, and not while its own is', () => {
    expect(say({ ohm: '7.5', limit_rpm: '-1', price: 'x' })).toContain('24 V / (7.5 + 0.5) ohm = 3.0 A');
    expect(say({ ohm: '' })).toBeUndefined();
    expect(say(noSolenoid)).toContain('Not known');
    expect(say({}, bare)).toContain('Not known');
  });
});
