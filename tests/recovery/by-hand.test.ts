import { rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ranking } from '#server/contract/ranking.ts';
import { vehicleSeries } from '#server/contract/vehicle.ts';
import { createTestDatabase, type TestDatabase } from '#tests/helpers/database.ts';
import { runSlipdrift, type Served, serveSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { callsTo } from '#tests/helpers/start-app.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

/**
 * Two files as somebody would write them by hand, of vehicles that no set-up knows, with a formula of their own: a
 * reading every eight hours or so for 100 days back from today, 60 km apart.
 *
 * `TRUCK 7`, CSV in miles and Fahrenheit: slip 14 rpm and from day 40 on 1.6 rpm more a day, 110 rpm at the end.
 * `hb-12`, NDJSON in metric, from engine and turbine speed: 16 rpm throughout.
 * `hb-13`, NDJSON: 15 rpm and from day 60 on 0.6 rpm more a day, 39 rpm at the end.
 */
const days = 100;
const firstMs = Date.now() - (days + 1) * 86_400_000;
const moments = Array.from({ length: 3 * days }, (_, i) => {
  const wave = [0, 2, -1, 3, -2, 1, -3][i % 7] ?? 0;
  return {
    at: new Date(firstMs + i * 8 * 3_600_000).toISOString(),
    day: i / 3,
    km: i * 60,
    wave,
    duty: 84 + (i % 5),
    fluidC: 82 + (i % 6),
    load: 48 + (i % 6),
  };
});

const csv = [
  'vehicle,at,odometer_mi,slip_rpm,duty_pct,fluid_f,load_pct',
  ...moments.map(({ at, day, km, wave, duty, fluidC, load }) => {
    const slip = 14 + Math.max(0, day - 40) * 1.6 + wave;
    const miles = (120_020 + km) / 1.609344;
    return `TRUCK 7,${at},${miles.toFixed(1)},${slip.toFixed(1)},${duty},${(fluidC * 1.8 + 32).toFixed(1)},${load}`;
  }),
].join('\n');

const ndjson = moments
  .flatMap(({ at, day, km, wave, duty, fluidC, load }) => {
    const slips = { 'hb-12': 16 + wave, 'hb-13': 15 + Math.max(0, day - 60) * 0.6 - wave };
    return Object.entries(slips).map(([vehicle, slip], i) =>
      JSON.stringify({
        vehicle,
        at,
        odometer_km: 80_000 + 30_000 * i + km,
        engine_rpm: Math.round((1400 + slip) * 10) / 10,
        turbine_rpm: 1400,
        duty_pct: duty,
        fluid_c: fluidC,
        load_pct: load,
      }),
    );
  })
  .join('\n');

let folder: string;
let database: TestDatabase;
let served: Served | undefined;
const settings = () => ({ DATABASE_URL: database.url, SLIPDRIFT_API_KEY: TEST_KEY });

beforeAll(async () => {
  folder = makeTemporaryFolder();
  database = await createTestDatabase();
});
afterAll(async () => {
  await served?.kill('SIGTERM');
  await database.drop();
  rmSync(folder, { recursive: true, force: true });
});

async function run(...args: string[]): Promise<string> {
  const program = runSlipdrift(args, settings());
  const code = await program.ended;
  if (code !== 0) throw new Error(`slipdrift ${args[0]} ended with ${code}: ${program.output()}`);
  return program.output();
}

const read = async (path: string): Promise<unknown> => (await callsTo(served?.url ?? '').get(path)).json();

describe('two files written by hand, of vehicles that no set-up knows', () => {
  it('go in by the command line, and are assessed by it', async () => {
    writeFileSync(join(folder, 'trucks.csv'), csv);
    writeFileSync(join(folder, 'buses.ndjson'), ndjson);
    const said = await run('import', join(folder, 'trucks.csv'), join(folder, 'buses.ndjson'));
    expect(said).toContain('trucks.csv: 300 lines, 300 stored, 0 there already, 0 refused');
    expect(said).toContain('buses.ndjson: 600 lines, 600 stored, 0 there already, 0 refused');
    expect(await run('assess')).toMatch(/^Assessed \d+ vehicles in/m);
  });

  it('make a list with the one whose slip climbs on top and the steady one below, unflagged', async () => {
    served = await serveSlipdrift(settings());
    const { rows } = ranking.parse(await read('/api/ranking'));
    expect(rows.map((row) => row.vehicle)).toEqual(['TRUCK 7', 'hb-13', 'hb-12']);
    const [truck, rising, steady] = rows;
    expect(['hold', 'book']).toContain(truck?.grade);
    expect(['hold', 'book', 'watch']).toContain(rising?.grade);
    expect(steady?.grade).toBe('steady');
    expect(steady?.km_to_limit).toEqual({ p10: null, p50: null, p90: null });
    for (const row of rows) expect(row.missing.join()).toContain('No platform is set');
  });

  // The waves of 2 rpm average out over a stretch of eight readings to 0.7 rpm; duty, load and fluid stay within a few
  // points of the reference, so that nothing is to be corrected. A rise goes on for a stretch: 1.6 rpm a day times 2.8
  // days. Three standard errors and a stretch.
  it('show the slip that was written, and where it began to rise', async () => {
    const { rows } = ranking.parse(await read('/api/ranking'));
    const slips = Object.fromEntries(rows.map((row) => [row.vehicle, row.reference_slip_rpm ?? Number.NaN]));
    const last = days - 1 / 3;
    expect(Math.abs((slips['TRUCK 7'] ?? 0) - (14 + (last - 40) * 1.6))).toBeLessThan(3 * 0.7 + 1.6 * 2.8);
    expect(Math.abs((slips['hb-13'] ?? 0) - (15 + (last - 60) * 0.6))).toBeLessThan(3 * 0.7 + 0.6 * 2.8);
    expect(Math.abs((slips['hb-12'] ?? 0) - 16)).toBeLessThan(3 * 0.7);
    // 1.6 rpm a day at 180 km a day is 8.9 rpm per 1,000 km, seen from 110 rpm at the end with 150 as the limit.
    const truck = rows[0];
    const drift = truck?.drift_rpm_per_1000km;
    expect(drift?.low).toBeLessThan(1.6 / 0.18);
    expect(drift?.high).toBeGreaterThan(1.6 / 0.18);
    const leftKm = ((150 - (14 + (last - 40) * 1.6)) / 1.6) * 180;
    expect(truck?.km_to_limit.p10).toBeLessThan(leftKm);
    expect(truck?.km_to_limit.p90).toBeGreaterThan(leftKm);
    // It begins 40 days of 180 km after the first reading; two stretches either way.
    expect(Math.abs((truck?.onset_km ?? Number.NaN) - (120_020 + 40 * 180))).toBeLessThan(1_000);
  });

  it('make a series to draw: points, fit and forecast at the mileages of the file', async () => {
    const found = vehicleSeries.parse(await read(`/api/vehicles/${encodeURIComponent('TRUCK 7')}/series`));
    const points = found.series[0]?.points ?? [];
    expect(points.length).toBe(36);
    expect(points[0]?.odometer_km).toBeGreaterThan(120_000);
    expect(points.at(-1)?.odometer_km).toBeLessThan(120_020 + days * 180);
    expect(found.series[0]?.fits).toHaveLength(1);
    expect(found.forecast?.points.length).toBeGreaterThan(10);
  });
});
