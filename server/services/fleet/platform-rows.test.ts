import { expect, it } from 'vitest';
import { platformInput } from '#server/contract/fleet.ts';
import { mergePlatform } from './platform-rows.ts';

const bare = platformInput.parse({ id: 'bus', name: 'Bus' });
const known = platformInput.parse({
  ...bare,
  solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.8, tolerance_pct: 15 },
  converter: { price: 1800, core_deposit: 600, spare_cores: 1 },
});

it('keeps what a change leaves out, within each group too', () => {
  const input = { id: 'bus', name: 'Bus', solenoid: { ohm: 6 }, converter: { spare_cores: 3 } };
  expect(mergePlatform(known, input).data).toEqual({
    ...known,
    solenoid: { ohm: 6, supply_v: 24, wiring_ohm: 0.8, tolerance_pct: 15 },
    converter: { price: 1800, core_deposit: 600, spare_cores: 3 },
  });
  expect(mergePlatform(known, { id: 'bus', name: 'Bus' }).data).toEqual(known);
  expect(mergePlatform(bare, { id: 'bus', name: 'Bus' }).data).toEqual(bare);
});

it('takes a group away by null, and each by itself', () => {
  expect(mergePlatform(known, { solenoid: null }).data).toEqual({ ...known, solenoid: null });
  expect(mergePlatform(bare, { converter: null }).data).toEqual(bare);
});

it('begins a group with its usual figures, and refuses one that lacks what has none', () => {
  expect(mergePlatform(bare, { solenoid: { ohm: 6, supply_v: 12 } }).data?.solenoid).toEqual({
    ohm: 6,
    supply_v: 12,
    wiring_ohm: 0.5,
    tolerance_pct: 25,
  });
  const { error } = mergePlatform(bare, { solenoid: { ohm: 6 } });
  expect(error?.issues.map(({ path }) => path.join('.'))).toEqual(['solenoid.supply_v']);
});
