import { mkdirSync, readdirSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { expect, it } from 'vitest';
import type { ReadingInput } from '#server/contract/readings.ts';
import { readSettings } from '#server/settings.ts';
import { drivePlainly, type PlainVehicle } from '#tests/helpers/drive-plainly.ts';
import { toNdjson } from '#tests/helpers/make-reading.ts';
import { startApp } from '#tests/helpers/start-app.ts';
import { startBroker } from '#tests/helpers/start-broker.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { TEST_KEY } from '#tests/helpers/test-key.ts';

const END = new Date('2026-03-04T00:00:00Z');
const DAYS = 100;
const waiting = { timeout: 30_000, interval: 50 };

/** From 14 rpm, from day 30 on up by so many rpm a day. */
const vehicle = (unit: string, rpmPerDay: number): PlainVehicle => ({
  unit,
  firstKm: 100_000,
  kmPerDay: 180,
  slipOn: (day) => 14 + Math.max(0, day - 30) * rpmPerDay,
});
const drive = (one: PlainVehicle): ReadingInput[] =>
  drivePlainly([one], new Date(END.getTime() - DAYS * 86_400_000), DAYS, one.unit.length);

/** As the logger of a workshop writes it: semicolons, decimal commas, its own names. */
const writeExport = (readings: readonly ReadingInput[]): string =>
  ['Zeit;km;Schlupf;Ansteuerung;ATF']
    .concat(
      readings.map(({ at, odometer_km, slip_rpm, duty_pct, fluid_c }) =>
        [at, ...[odometer_km, slip_rpm, duty_pct, fluid_c].map((n) => String(n).replace('.', ','))].join(';'),
      ),
    )
    .join('\n');

it('brings vehicles of a broker, a folder and a folder with a mapping onto the list, by what their slip does', {
  timeout: 120_000,
}, async () => {
  const broker = await startBroker();
  const folder = makeTemporaryFolder();
  const { mqtt, watchFolder } = readSettings({
    SLIPDRIFT_MQTT_URL: broker.url,
    SLIPDRIFT_WATCH_FOLDER: folder,
  });
  const app = await startApp({ mqtt, watchFolder }, END);
  try {
    const saved = await fetch(`${app.url}/api/mappings/workshop`, {
      method: 'PUT',
      headers: { authorization: `Bearer ${TEST_KEY}`, 'content-type': 'application/json' },
      body: JSON.stringify({
        separator: ';',
        decimal: ',',
        vehicle: 'file_name',
        columns: [
          { column: 'Zeit', takes: 'time' },
          { column: 'km', takes: 'odometer_km' },
          { column: 'Schlupf', takes: 'slip_rpm' },
          { column: 'Ansteuerung', takes: 'duty_pct' },
          { column: 'ATF', takes: 'fluid_c' },
        ],
      }),
    });
    expect(saved.status, await saved.text()).toBe(200);
    mkdirSync(join(folder, 'workshop'));
    writeFileSync(join(folder, 'calm.ndjson'), toNdjson(drive(vehicle('FOLDER-1', 0))));
    writeFileSync(join(folder, 'workshop', 'EXPORT-22.csv'), writeExport(drive(vehicle('EXPORT-22', 1.1))));
    for (const reading of drive(vehicle('BROKER-333', 2.3))) {
      const { vehicle: _, ...payload } = reading;
      await broker.publish('slipdrift/BROKER-333/readings', JSON.stringify(payload));
    }
    const count = async () =>
      (
        await app.client`select v.unit, count(*)::int as n from readings r join vehicles v on v.key = r.vehicle
        group by 1 order by 1`
      ).map(({ unit, n }) => [unit, n]);
    const each = drive(vehicle('FOLDER-1', 0)).length;
    await expect.poll(count, waiting).toEqual([
      ['BROKER-333', each],
      ['EXPORT-22', each],
      ['FOLDER-1', each],
    ]);
    await expect
      .poll(() => readdirSync(join(folder, 'done')).sort(), waiting)
      .toEqual(['calm.ndjson', 'workshop']);
    expect((await app.post('/api/assess', {})).status).toBe(200);
    const { rows } = (await (await app.get('/api/ranking')).json()) as {
      rows: { vehicle: string; grade: string; reference_slip_rpm: number }[];
    };
    expect(rows.map((row) => row.vehicle)).toEqual(['BROKER-333', 'EXPORT-22', 'FOLDER-1']);
    expect(rows.map((row) => row.grade)).toEqual([
      'hold',
      expect.stringMatching(/^(hold|book|watch)$/),
      'steady',
    ]);
    expect(rows[0]?.reference_slip_rpm).toBeGreaterThan(150);
  } finally {
    await app.stop();
    await broker.stop();
  }
});
