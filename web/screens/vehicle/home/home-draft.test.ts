import { expect, it } from 'vitest';
import { vehicleInput } from '#server/contract/fleet.ts';
import { type AwayDraft, readDraft, toDraft } from './home-draft.ts';

const before = {
  depot: 'north',
  platform: null,
  unavailable: [{ from: '2026-12-24', to: '2027-01-06', note: 'lent out' }],
};
const away = (patch: Partial<AwayDraft>): AwayDraft => ({
  key: 9,
  stored: '',
  from: '',
  to: '',
  note: '',
  ...patch,
});
const read = (patch: object) => readDraft({ ...toDraft(before), ...patch }, before);

it('changes nothing where nothing was touched', () => {
  expect(read({})).toEqual({ change: {}, faults: {} });
});

it('changes what was touched alone, days in order, one day as from and to', () => {
  const { change } = read({
    platform: 'bus',
    away: [...toDraft(before).away, away({ from: '2026-11-30', note: ' parade ' })],
  });
  expect(change).toEqual({
    platform: 'bus',
    unavailable: [
      { from: '2026-11-30', to: '2026-11-30', note: 'parade' },
      { from: '2026-12-24', to: '2027-01-06', note: 'lent out' },
    ],
  });
  expect(vehicleInput.parse({ id: 'B-1', ...change })).toEqual({ id: 'B-1', ...change });
  expect(read({ depot: '', away: [] }).change).toEqual({ depot: null, unavailable: [] });
});

it('says at its field what is wrong with a day', () => {
  expect(read({ away: [away({ to: '2026-12-01' })] })).toEqual({
    change: null,
    faults: { 'unavailable.0.from': 'A first day is needed.' },
  });
  expect(read({ away: [away({ from: '2026-12-02', to: '2026-12-01' })] }).faults).toEqual({
    'unavailable.0.to': 'It is before the first day.',
  });
  expect(read({ away: [away({ from: '0002-12-02' })] }).faults).toEqual({
    'unavailable.0.from': 'A day of the years 1900 to 2199.',
  });
});
