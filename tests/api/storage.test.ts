import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureReadingMonths } from '#db/partitions.ts';
import { settledMonths, type UpkeepStep } from '#db/schema/upkeep.ts';
import { type StorageReport, storageReport } from '#server/contract/storage.ts';
import { runUpkeep } from '#server/services/storage/run-upkeep.ts';
import { keepAll } from '#server/services/storage/upkeep-limits.ts';
import { runCommand } from '#tests/helpers/run-slipdrift.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';

const limits = { ...keepAll, keepReadingsMonths: 12 };
const goOn = new AbortController().signal;

let app: TestApp;
beforeAll(async () => {
  app = await startApp({ keepReadingsMonths: 12 }, new Date('2026-11-27T10:00:00Z'));
});
afterAll(() => app.stop());

const upkeep = (changes: Partial<typeof limits> = {}, signal = goOn) =>
  runUpkeep(app.running.context, { ...limits, ...changes }, signal);
const doneOf = (run: { steps: UpkeepStep[] } | null, step: UpkeepStep['step']) =>
  run?.steps.find((one) => one.step === step)?.done;
const read = async (): Promise<StorageReport> =>
  storageReport.parse(await (await app.get('/api/storage')).json());
const monthsOf = async () => (await read()).months.map(({ month }) => month);

const PER_VEHICLE = 250;
/** Readings of 100 vehicles, 250 each every second hour of a month, not in order: an index grows loose of it. */
async function fillMonth(month: string): Promise<void> {
  await ensureReadingMonths(app.db, [month]);
  for (let round = 0; round < 5; round++)
    await app.client`
      insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct)
      select ${`${month}-01`}::timestamptz + make_interval(hours => 2 * d, secs => 7 * v), v, 1000 + d, 10, 80
      from generate_series(1, 100) v, generate_series(${round}::int, ${PER_VEHICLE - 1}::int, 5) d order by v desc, d desc`;
  // Commits of the test server reach the disk later, told apart by 32 transactions; only then rows are seen by all for good.
  for (let i = 0; i < 32; i++) await app.client`select pg_current_xact_id()`;
  await app.client.unsafe('checkpoint');
}

describe('the upkeep', () => {
  it('runs at start: this month and the next two have their place before the first reading', async () => {
    await expect.poll(async () => (await read()).upkeep.runs[0]?.state).toBe('done');
    expect(await monthsOf()).toEqual(['2026-11', '2026-12', '2027-01']);
    const { upkeep: told } = await read();
    expect(told.runs[0]?.steps.map(({ step }) => step)).toEqual([
      'make_ahead',
      'drop_old',
      'drop_empty',
      'forget',
      'settle',
    ]);
    const dayMs = Date.parse(told.next_at ?? '') - Date.parse(told.runs[0]?.started_at ?? '');
    expect(dayMs).toBe(86_400_000);
  });

  it('drops months past retention, and empty ones that no clock needs; one with a reading stays and is named', async () => {
    await fillMonth('2025-10');
    await fillMonth('2025-11');
    await ensureReadingMonths(app.db, ['1991-03', '2026-02', '2031-07']);
    await app.client`
      insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct) values ('2031-07-04', 7, 1, 1, 80)`;
    const run = await upkeep();
    expect(run?.state).toBe('done');
    // 1991 is past retention, whatever it holds.
    expect(doneOf(run, 'drop_old')).toEqual(['1991-03', '2025-10']);
    expect(doneOf(run, 'drop_empty')).toEqual(['2026-02']);
    const { months, retention } = await read();
    expect(months.map(({ month, alone }) => [month, alone])).toEqual([
      ['2025-11', true],
      ['2026-11', false],
      ['2026-12', false],
      ['2027-01', false],
      ['2031-07', true],
    ]);
    expect(retention).toMatchObject({ readings_months: 12, next: { month: '2025-11', on: '2026-12-01' } });
  });

  it('puts a month that is over in order: counted, frozen, its index full; and again once much has come late', async () => {
    await fillMonth('2026-08');
    expect((await read()).months.find(({ month }) => month === '2026-08')).toMatchObject({
      state: 'over',
      estimated: true,
    });
    expect(doneOf(await upkeep(), 'settle')).toEqual(['2026-08']);
    expect(doneOf(await upkeep(), 'settle')).toEqual([]);
    const { months } = await read();
    expect(months.find(({ month }) => month === '2026-08')).toMatchObject({
      state: 'settled',
      rows: 25_000,
      estimated: false,
      first_at: '2026-08-01T00:00:07.000Z',
      last_at: '2026-08-21T18:11:40.000Z',
    });
    const [record] = await app.db.select().from(settledMonths);
    expect(record?.indexBytes).toBeLessThan(record?.indexBytesBefore ?? 0);
    const [table] = await app.client`
      select relpages, relallvisible, reltuples::int as rows from pg_class where relname = 'readings_y2026m08'`;
    expect(table?.relallvisible).toBe(table?.relpages);
    expect(table?.rows).toBe(25_000);
    await app.client`
      insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct)
      select '2026-08-02'::timestamptz + make_interval(secs => i), 999, 1, 1, 80 from generate_series(1, 30000) i`;
    expect(doneOf(await upkeep(), 'settle')).toEqual(['2026-08']);
    expect((await read()).months.find(({ month }) => month === '2026-08')?.rows).toBe(55_000);
  });

  it('leaves a month in which a reading still counts once', async () => {
    const late = { vehicle: 'S-1', at: '2026-08-11T00:00:00Z', odometer_km: 5, slip_rpm: 9, duty_pct: 80 };
    expect(await (await app.post('/api/readings', [late])).json()).toMatchObject({ stored: 1 });
    expect(await (await app.post('/api/readings', [late])).json()).toMatchObject({ duplicate: 1, stored: 0 });
  });

  it('is broken off at a stop without a trace, and done by the next run', async () => {
    await fillMonth('2026-07');
    const stopping = new AbortController();
    const held = await app.client.reserve();
    try {
      // Whoever writes to the month keeps its index from being exchanged.
      await held.unsafe('begin');
      await held.unsafe(
        `insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct) values ('2026-07-30', 9, 1, 1, 80)`,
      );
      const running = upkeep({}, stopping.signal);
      const isWaiting = async () =>
        (
          await app.client`select from pg_stat_activity where query like 'reindex%y2026m07%' and wait_event_type = 'Lock'`
        ).length;
      await expect.poll(isWaiting, { timeout: 10_000 }).toBe(1);
      stopping.abort();
      expect((await running)?.state).toBe('stopped');
    } finally {
      await held.unsafe('rollback');
      held.release();
    }
    const loose = () => app.client`
      select from pg_class c join pg_index x on x.indexrelid = c.oid where relname like 'readings%ccnew%'`;
    expect(await loose()).toHaveLength(1);
    expect(doneOf(await upkeep(), 'settle')).toEqual(['2026-07']);
    expect(await loose()).toHaveLength(0);
  });

  it('does what it can where others hold what it would drop, says what failed, and is due again in an hour', async () => {
    await ensureReadingMonths(app.db, ['2025-01']);
    await app.client`
      insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct) values ('2025-01-04', 7, 1, 1, 80)`;
    await app.client`insert into sessions (id, expires_at, token, user_id) select 's', '2020-01-01', 't', id from people limit 1`;
    const held = await app.client.reserve();
    try {
      await held.unsafe('begin');
      await held.unsafe('select count(*) from readings_y2025m01');
      const run = await upkeep();
      expect(run?.state).toBe('failed');
      expect(run?.steps.filter(({ fault }) => fault !== null)).toMatchObject([
        { step: 'drop_old', fault: 'Others were using the table for too long; it is tried again.' },
      ]);
      expect(run?.steps).toHaveLength(5);
    } finally {
      await held.unsafe('rollback');
      held.release();
    }
    const { upkeep: told } = await read();
    expect(Date.parse(told.next_at ?? '') - Date.parse(told.runs[0]?.started_at ?? '')).toBe(3_600_000);
    const metrics = await (await app.get('/metrics')).text();
    expect(metrics).toMatch(/^slipdrift_upkeep_failures 1$/m);
    expect(doneOf(await upkeep(), 'drop_old')).toEqual(['2025-01']);
  });

  it('is done by one at a time, and tells of a run whose process died', async () => {
    await app.client`insert into upkeep_runs (started_at, state, steps) values ('2026-11-27T10:00:00Z', 'running', '[]')`;
    const both = await Promise.all([upkeep(), upkeep()]);
    expect(both.filter((one) => one === null)).toHaveLength(1);
    const { runs } = (await read()).upkeep;
    expect(runs.map(({ state }) => state)).not.toContain('running');
    expect(runs.filter(({ steps }) => steps.length === 0)).toMatchObject([{ state: 'stopped' }]);
  });

  it('keeps receipts and refused lines unless told otherwise, and open lines with their receipt always', async () => {
    const send = async (lines: object[]): Promise<string> =>
      (await (await app.post('/api/readings', lines)).json()).receipt;
    const bad = (vehicle: string) => ({ vehicle, at: 'never', odometer_km: 1, slip_rpm: 1, duty_pct: 80 });
    const open = await send([bad('S-2')]);
    const settled = await send([bad('S-3')]);
    const fresh = await send([bad('S-4')]);
    await app.client`update receipts set at = '2025-06-01', ended_at = '2025-06-01' where id in (${open}, ${settled})`;
    await app.client`
      update refused_lines set state = 'laid_aside', settled_at = '2025-06-02' where receipt = ${settled}`;
    await app.client`
      update refused_lines set state = 'laid_aside', settled_at = '2026-11-26' where receipt = ${fresh}`;
    expect(doneOf(await upkeep(), 'forget')).toEqual([]);
    expect(doneOf(await upkeep({ keepReceiptsMonths: 12 }), 'forget')).toEqual([
      'refused_lines 1',
      'receipts 1',
    ]);
    const left = await app.client`select receipt from refused_lines order by id`;
    expect(left.map(({ receipt }) => receipt)).toEqual([open, fresh]);
    expect((await app.get(`/api/receipts/${open}`)).status).toBe(200);
    expect((await app.get(`/api/receipts/${settled}`)).status).toBe(404);
  });
});

describe('the report', () => {
  it('adds up to what the database says of itself', async () => {
    const report = await read();
    const [sizes] = await app.client`
      select sum(pg_total_relation_size(inhrelid))::bigint as bytes from pg_inherits
      where inhparent = 'readings'::regclass`;
    const sum = report.months.reduce((all, one) => all + one.heap_bytes + one.index_bytes, 0);
    expect(sum).toBe(sizes?.bytes);
    const table = report.tables.find(({ name }) => name === 'readings');
    expect((table?.heap_bytes ?? 0) + (table?.index_bytes ?? 0)).toBe(sum);
    expect(report.database_bytes).toBeGreaterThan(sum);
    const rows = report.months.reduce((all, one) => all + one.rows, 0);
    expect(report.readings).toMatchObject({ rows, bytes_per_reading: report.readings.bytes / rows });
    expect(report.disk).toBeNull();
    const metrics = await (await app.get('/metrics')).text();
    expect(metrics).toMatch(/^slipdrift_reading_months \d+$/m);
    const bytes = Number(/^slipdrift_database_bytes (\d+)$/m.exec(metrics)?.[1]);
    expect(bytes / report.database_bytes).toBeCloseTo(1, 1);
    expect(Number(/^slipdrift_upkeep_done_seconds (\S+)$/m.exec(metrics)?.[1])).toBeGreaterThan(1.7e9);
  });

  it('is what the command prints, as a table and whole', async () => {
    const env = { DATABASE_URL: app.databaseUrl, SLIPDRIFT_KEEP_READINGS_MONTHS: '12' };
    const table = await runCommand(['storage'], env);
    expect(table.code).toBe(0);
    expect(table.out).toMatch(/^2026-08\s+settled\s+55,000 .*2027-09-01$/m);
    expect(table.out).toMatch(/Readings are kept for 12 months\./);
    const whole = await runCommand(['storage', '--json'], env);
    expect(storageReport.parse(JSON.parse(whole.out)).months.map(({ month }) => month)).toEqual(
      await monthsOf(),
    );
  });
});
