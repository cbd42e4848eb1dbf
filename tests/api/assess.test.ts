import { pino } from 'pino';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { openDatabase } from '#db/client.ts';
import { toReadingColumns } from '#db/queries/reading-columns.ts';
import { assessReply } from '#server/contract/ranking.ts';
import { toReading } from '#server/contract/readings.ts';
import { programActor } from '#server/services/actor.ts';
import { bringUpToDate } from '#server/services/assessment/bring-up-to-date.ts';
import { newBatch } from '#server/services/intake/batch.ts';
import { storeBatch } from '#server/services/intake/store-batch.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { plainEnd, plainFleet, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp } from '#tests/helpers/start-app.ts';

const HOUR_MS = 3_600_000;
const all = plainFleet.map(({ unit }) => unit);

/** The fleet is sent through a server that then stops, so that nobody else assesses it. */
let database: TestDatabase;
beforeAll(async () => {
  database = await createTestDatabase();
  const app = await startApp({ databaseUrl: database.url }, plainEnd);
  try {
    await sendPlainFleet(app);
    const again = assessReply.parse(await (await app.post('/api/assess', {})).json());
    expect(again.assessed).toBe(0);
  } finally {
    await app.stop();
  }
});
afterAll(() => database?.drop());

let minute = 0;
/** Stores one more reading of each of these vehicles, as a delivery does. */
async function touch(units: readonly string[]): Promise<void> {
  minute++;
  const at = new Date(plainEnd.getTime() + minute * 60_000).toISOString();
  const rows = await database.client`
    select unit, odometer_km from vehicles join reading_spans on vehicle = key where unit = any(${[...units]}::text[])`;
  const readings = rows.map(({ unit, odometer_km }) =>
    toReading(makeReading({ vehicle: unit, at, odometer_km: odometer_km + 0.1, load_pct: 50 })),
  );
  const batch = { ...newBatch(new Map()), received: readings.length, readings: toReadingColumns(readings) };
  const owner = {
    receipt: '00000000-0000-4000-8000-000000000000',
    sender: 'program:test',
    earlierTo: null,
    arrivedAt: plainEnd,
  };
  const counts = await storeBatch(database.db, owner, batch, async () => {});
  expect(counts.stored).toBe(units.length);
}

interface Run {
  hours: number;
  learn?: boolean;
  stopped?: () => boolean;
}

/** A run with connections of its own, so many hours after the fleet was sent. */
async function runOnce({ hours, learn = false, stopped = () => false }: Run): Promise<number> {
  const { db, close } = openDatabase(database.url);
  const now = () => new Date(plainEnd.getTime() + hours * HOUR_MS + minute * 60_000);
  try {
    return await bringUpToDate(
      { db, now, log: pino({ level: 'silent' }), actor: programActor('test') },
      { learn, stopped },
    );
  } finally {
    await close();
  }
}

const read = {
  touched: async () =>
    (
      await database.client`
        select unit from (select vehicle from touched_vehicles union select vehicle from claimed_vehicles) t
          join vehicles v on v.key = t.vehicle order by unit`
    ).map((row) => row.unit as string),
  asOf: async () =>
    new Map(
      (await database.client`select unit, as_of from assessments a join vehicles v on v.key = a.vehicle`).map(
        (row) => [row.unit as string, row.as_of.getTime() as number],
      ),
    ),
  readingsIn: async (unit: string) =>
    (
      await database.client`
        select sum(t.usable)::int as n from stretch_totals t join vehicles v on v.key = t.vehicle
        where unit = ${unit}`
    )[0]?.n as number,
};

/** Vehicles whose assessment was written anew since. */
async function assessedSince(before: ReadonlyMap<string, number>): Promise<string[]> {
  const after = await read.asOf();
  return all.filter((unit) => after.get(unit) !== before.get(unit)).sort();
}

/** Assessments cannot be written meanwhile: a run comes to stand between stretches and assessment. */
async function whileAssessmentsAreHeld(work: () => Promise<void>): Promise<void> {
  const { client, close } = openDatabase(database.url, { connections: 1 });
  try {
    await client.unsafe('begin; lock table assessments in access exclusive mode');
    await work();
    await client.unsafe('rollback');
  } finally {
    await close();
  }
}

async function someoneWaits(): Promise<void> {
  const waiting = () =>
    database.client`select from pg_locks where not granted and relation = 'assessments'::regclass`;
  await expect.poll(async () => (await waiting()).length, { timeout: 30_000 }).toBeGreaterThan(0);
}

describe('an assessment', () => {
  it('leaves nothing noted and every vehicle assessed', async () => {
    expect(await read.touched()).toEqual([]);
    expect((await read.asOf()).size).toBe(all.length);
  });

  it('touches only the vehicles with new readings while what the platform has in common is fresh', async () => {
    const before = await read.asOf();
    await touch(['P-04', 'Q-02']);
    expect(await read.touched()).toEqual(['P-04', 'Q-02']);
    expect(await runOnce({ hours: 20 })).toBe(2);
    expect(await assessedSince(before)).toEqual(['P-04', 'Q-02']);
    expect(await read.touched()).toEqual([]);
  });

  it('does nothing where nothing is new', async () => {
    const before = await read.asOf();
    expect(await runOnce({ hours: 21 })).toBe(0);
    expect(await assessedSince(before)).toEqual([]);
  });

  it('takes every vehicle of a platform whose common part is older than a day', async () => {
    const before = await read.asOf();
    await touch(['P-04', 'Q-02']);
    expect(await runOnce({ hours: 25 })).toBe(all.length);
    expect(await assessedSince(before)).toEqual(all);
  });

  it('learns platforms again, and judges every vehicle anew, where other arithmetic learned them', async () => {
    await database.client`update platform_contexts set context = context - 'version' - 'wear'`;
    const before = await read.asOf();
    expect(await runOnce({ hours: 25.5 })).toBe(all.length);
    expect(await assessedSince(before)).toEqual(all);
    const [one] = await database.client`select context->'wear'->'growths' as growths from platform_contexts`;
    expect(one?.growths.length).toBeGreaterThan(3);
    expect(await runOnce({ hours: 25.6 })).toBe(0);
  });

  it('builds again only the stretches that new readings touch', async () => {
    const rows = () => database.client`
      select s.ctid::text as place, v.unit from stretches s join vehicles v on v.key = s.vehicle
      where v.unit = 'P-05'`;
    const before = new Set((await rows()).map((row) => row.place));
    await touch(['P-05']);
    await runOnce({ hours: 26 });
    const after = await rows();
    const fresh = after.filter((row) => !before.has(row.place)).length;
    expect(after.length).toBeGreaterThan(100);
    // The last stretch and its two neighbours, of up to four bands and the reference point.
    expect(fresh).toBeGreaterThan(0);
    expect(fresh).toBeLessThanOrEqual(15);
  });
});

describe('an assessment that ends early', () => {
  it('by a stop keeps the work noted', async () => {
    await touch(['P-06', 'P-07']);
    let asked = 0;
    expect(await runOnce({ hours: 27, stopped: () => ++asked > 1 })).toBe(0);
    expect(await read.touched()).toEqual(['P-06', 'P-07']);
    expect(await runOnce({ hours: 27 })).toBe(2);
    expect(await read.touched()).toEqual([]);
  });

  it('by a kill between stretches and assessment keeps the work noted, and the next does it', async () => {
    const before = await read.asOf();
    const had = await read.readingsIn('Q-03');
    await touch(['Q-03', 'Q-04']);
    await whileAssessmentsAreHeld(async () => {
      const program = runSlipdrift(['assess'], { DATABASE_URL: database.url });
      await expect.poll(() => read.readingsIn('Q-03'), { timeout: 30_000 }).toBe(had + 1);
      await someoneWaits();
      expect(await program.kill('SIGKILL')).toBe('SIGKILL');
    });
    // Its platform was learned again, which leaves its other vehicles to be assessed too.
    expect(await read.touched()).toEqual(expect.arrayContaining(['Q-03', 'Q-04']));
    expect(await assessedSince(before)).toEqual([]);
    const again = runSlipdrift(['assess'], { DATABASE_URL: database.url });
    expect([await again.ended, again.output()]).toEqual([0, expect.stringMatching(/^Assessed \d+ vehicles/)]);
    expect(await read.touched()).toEqual([]);
    expect(await assessedSince(before)).toEqual(expect.arrayContaining(['Q-03', 'Q-04']));
  });

  it('by a vehicle that was touched again meanwhile keeps that note, with the new readings alone', async () => {
    await touch(['P-08']);
    let running: Promise<number> | undefined;
    await whileAssessmentsAreHeld(async () => {
      running = runOnce({ hours: 28 });
      await someoneWaits();
      await touch(['P-08']);
    });
    expect(await running).toBe(1);
    expect(await read.touched()).toEqual(['P-08']);
    const newest = new Date(plainEnd.getTime() + minute * 60_000);
    expect([...(await database.client`select * from touched_vehicles`)]).toMatchObject([
      { from_at: newest, to_at: newest },
    ]);
    expect([...(await database.client`select * from claimed_vehicles`)]).toEqual([]);
    expect(await runOnce({ hours: 28 })).toBe(1);
    expect(await read.touched()).toEqual([]);
  });
});

describe('two assessments of one database at once', () => {
  it('both end, and leave what one alone leaves', async () => {
    const content = () => database.client`
      select unit, rank, grade, pattern, reference_slip_rpm, km_p50, chance
      from assessments a join vehicles v on v.key = a.vehicle order by unit`;
    for (let round = 0; round < 4; round++) {
      await touch(all);
      const runs = Array.from({ length: 3 }, () => runOnce({ hours: 30 + round, learn: true }));
      const outcomes = await Promise.allSettled(runs);
      expect(outcomes.filter((one) => one.status === 'rejected')).toEqual([]);
    }
    expect(await read.touched()).toEqual([]);
    const together = await content();
    expect(together.map((row) => row.rank).sort((a, b) => a - b)).toEqual(all.map((_, i) => i + 1));
    await touch(['P-01']);
    await database.client`update touched_vehicles set from_at = '2020-01-01'`;
    await runOnce({ hours: 34, learn: true });
    const alone = await content();
    expect(alone.map((row) => [row.unit, row.grade])).toEqual(together.map((row) => [row.unit, row.grade]));
  });
});
