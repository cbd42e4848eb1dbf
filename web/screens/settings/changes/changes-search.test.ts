import { expect, it } from 'vitest';
import { changesQuery } from '#server/contract/changes.ts';
import { parseChangesSearch, patchChangesSearch, readFilter } from './changes-search.ts';

it('takes what is sound from an address and drops the rest', () => {
  const sound = {
    subject: 'person',
    subject_id: 'p-1',
    action: 'invited',
    actor: 'Maren',
    since: '2026-03-01',
    until: '2026-03-04',
  };
  expect(parseChangesSearch({ ...sound, before_id: '12' })).toEqual({ ...sound, before_id: 12 });
  expect(
    parseChangesSearch({
      subject: 'toString',
      action: 'x',
      actor: ' ',
      since: '2026-02-30',
      until: 'today',
      before_id: '-1',
    }),
  ).toEqual({});
});

it('goes back to the newest change when a filter changes, and stays when the page does', () => {
  expect(patchChangesSearch({ before_id: 12 }, { actor: 'Bo' })).toEqual({ actor: 'Bo' });
  expect(patchChangesSearch({ actor: 'Bo' }, { before_id: 7 })).toEqual({ actor: 'Bo', before_id: 7 });
});

it('asks for whole days, as the contract takes them', () => {
  const filter = readFilter({ since: '2026-03-01', until: '2026-03-01' });
  expect(changesQuery.safeParse({ since: filter.since, until: filter.until }).success).toBe(true);
  expect(Date.parse(filter.until ?? '') - Date.parse(filter.since ?? '')).toBe(864e5);
});
