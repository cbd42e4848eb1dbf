import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { dropReadingMonthsBefore, ensureReadingMonths } from './partitions.ts';

let test: TestDatabase;
beforeAll(async () => {
  test = await createTestDatabase();
});
afterAll(() => test.drop());

const partitions = async () => {
  const rows = await test.client<{ name: string }[]>`
    select inhrelid::regclass::text as name from pg_inherits where inhparent = 'readings'::regclass order by 1`;
  return rows.map((row) => row.name);
};

const insertReading = (at: string) => test.client`
  insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct, fluid_c) values (${at}, 1, 1, 1, 1, 1)`;

describe('ensureReadingMonths', () => {
  it('makes each month once when several ask at the same time', async () => {
    await Promise.all([
      ensureReadingMonths(test.db, ['2026-03', '2026-04']),
      ensureReadingMonths(test.db, ['2026-04', '2025-12']),
      ensureReadingMonths(test.db, ['2025-12', '2026-03']),
    ]);
    expect(await partitions()).toEqual(['readings_y2025m12', 'readings_y2026m03', 'readings_y2026m04']);
  });

  it('takes the first and the last instant of a month, over the turn of the year too', async () => {
    await insertReading('2025-12-01T00:00:00Z');
    await insertReading('2025-12-31T23:59:59.999Z');
    const [row] = await test.client`select count(*) as n from readings_y2025m12`;
    expect(row?.n).toBe(2);
    await expect(insertReading('2026-01-01T00:00:00Z')).rejects.toThrow(/no partition/);
  });

  it('declines what is not a month', async () => {
    await expect(ensureReadingMonths(test.db, ['2026-13'])).rejects.toThrow(/requires months/);
    await expect(ensureReadingMonths(test.db, ["2026-01'; drop"])).rejects.toThrow(/requires months/);
  });
});

describe('dropReadingMonthsBefore', () => {
  it('drops whole months older than the date and lets them be made again', async () => {
    expect(await dropReadingMonthsBefore(test.db, new Date('2026-03-31T00:00:00Z'))).toEqual(['2025-12']);
    expect(await partitions()).toEqual(['readings_y2026m03', 'readings_y2026m04']);
    await ensureReadingMonths(test.db, ['2025-12']);
    await insertReading('2025-12-05T00:00:00Z');
  });
});
