import { expect, it } from 'vitest';
import { makeRows } from '#tests/browser/fixtures/ranking-fixture.ts';
import { joinRows } from './join-rows.ts';

it('shows a vehicle once that moved to the next page while it was fetched', () => {
  const rows = makeRows(6);
  const page = (from: number, to: number) => ({
    as_of: null,
    horizon_km: 5000,
    total: 6,
    rows: rows.slice(from, to),
  });
  expect(joinRows([page(0, 3), page(2, 6)]).map((row) => row.rank)).toEqual([1, 2, 3, 4, 5, 6]);
});
