import { count, sql } from 'drizzle-orm';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { rawClient } from './client.ts';
import { depots } from './schema/fleet.ts';

let test: TestDatabase;
beforeAll(async () => {
  test = await createTestDatabase();
});
afterAll(() => test.drop());

const at = new Date('2026-03-04T05:06:07.089Z');

it('gives and takes instants as Date through drizzle and through the raw client', async () => {
  await test.db
    .insert(depots)
    .values({ id: 'north', name: 'North', bays: 2, timeZone: 'UTC', changedAt: at });
  const [stored] = await test.db.select().from(depots);
  expect(stored?.changedAt).toEqual(at);
  const [row] = await test.client`select changed_at, changed_at = ${at} as same from depots`;
  expect(row).toEqual({ changed_at: at, same: true });
});

it('keeps dates as text, counts as numbers and the digits of reals', async () => {
  const [row] =
    await test.client`select date '2026-02-28' as day, count(*) as n, 12.3::real as r from depots`;
  expect(row).toEqual({ day: '2026-02-28', n: 1, r: 12.3 });
  expect(await test.db.select({ n: count() }).from(depots)).toEqual([{ n: 1 }]);
});

it('reaches the connection of a transaction below drizzle', async () => {
  const failed = test.db.transaction(async (transaction) => {
    await rawClient(transaction)`delete from depots`;
    const [seen] = await transaction.execute(sql`select count(*) as n from depots`);
    expect(seen).toEqual({ n: 0 });
    throw new Error('undo');
  });
  await expect(failed).rejects.toThrow('undo');
  expect(await test.db.select({ n: count() }).from(depots)).toEqual([{ n: 1 }]);
});
