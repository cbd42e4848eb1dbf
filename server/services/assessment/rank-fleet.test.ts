import { pino } from 'pino';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { programActor } from '#server/services/actor.ts';
import type { Context } from '#server/services/context.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';
import { rankFleet } from './rank-fleet.ts';

let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
});
afterAll(() => database?.drop());

it('notes the new grades of a whole large fleet at once, and later those that change', {
  timeout: 60_000,
}, async () => {
  const now = new Date('2026-11-26T09:00:00Z');
  const actor = programActor('test');
  const ctx: Context = { db: database.db, now: () => now, log: pino({ level: 'silent' }), actor };
  // With a row of six parameters, and 65,535 in a statement: more than one statement could take.
  const count = 11_000;
  await storeMadeFleet(ctx, 10);
  await database.client`truncate grade_changes, bookings`;
  await database.client`
    with made as (insert into vehicles (unit) select 'C-' || i from generate_series(11, ${count}::int) i returning key)
    insert into reading_spans select key, ${now}, ${now}, 1000.1 * key from made`;
  await database.client`
    insert into assessments (vehicle, as_of, rank, grade, pattern, life, limit_rpm, facts, brief, detail)
    select v.key, as_of, 2147483647, 'unknown', pattern, a.life, limit_rpm, facts, brief, detail
    from vehicles v, assessments a where v.unit like 'C-%' and a.vehicle = (select min(vehicle) from assessments)`;
  await database.client`update assessments set chance = null`;
  await rankFleet(ctx);
  const noted = () => database.client`
    select g.at, g.from_grade as from, g.to_grade = a.grade as new, g.odometer_km = r.odometer_km as km,
      g.why = a.brief -> 'reasons' -> 0 as why, count(*) as n
    from grade_changes g join assessments a using (vehicle) join reading_spans r using (vehicle)
    group by 1, 2, 3, 4, 5 order by 1`;
  const first = { at: now, from: null, new: true, km: true, why: true, n: count };
  expect(await noted()).toEqual([first]);

  await database.client`update assessments set grade = 'watch' where vehicle = (select min(vehicle) from assessments where grade = 'steady')`;
  const later = new Date('2026-11-27T09:00:00Z');
  await rankFleet({ ...ctx, now: () => later });
  expect(await noted()).toEqual([first, { ...first, at: later, from: 'watch', n: 1 }]);
});
