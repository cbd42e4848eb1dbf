import { gzipSync } from 'node:zlib';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { storedMapping } from '#server/contract/mappings.ts';
import { receipt } from '#server/contract/receipts.ts';
import { foreignFiles } from '#tests/api/foreign-files.ts';
import { drive, toLog } from '#tests/helpers/can-frames.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { openServed } from './open-served.ts';

let app: TestApp;
let browser: Browser;
const now = new Date('2026-04-01T00:00:00Z');

beforeAll(async () => {
  await ensureScreens();
  browser = await launchBrowser();
  app = await startApp({}, now);
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

interface Dropped {
  name: string;
  bytes: Uint8Array;
}

const open = async () => {
  const opened = await openServed(browser, app, '/intake/bring', { as: 'planner', now });
  await opened.page.getByText('or drop them here').waitFor();
  return opened;
};

/** As a hand would drop them. */
const drop = (page: Page, ...files: Dropped[]) =>
  page.getByText('or drop them here').evaluate(
    (place, dropped) => {
      const data = new DataTransfer();
      for (const { name, bytes } of dropped)
        data.items.add(new File([Uint8Array.from(atob(bytes), (letter) => letter.charCodeAt(0))], name));
      place.dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data }));
    },
    files.map(({ name, bytes }) => ({ name, bytes: Buffer.from(bytes).toString('base64') })),
  );
const text = (name: string, lines: readonly string[]): Dropped => ({
  name,
  bytes: Buffer.from(lines.map((line) => `${line}\r\n`).join('')),
});

const wouldStore = (page: Page, words: string) => page.locator('[role=status]').getByText(words).waitFor();

/** What is stored of a vehicle, in the order of its moments. */
const storedOf = (unit: string) =>
  app.client`
    select r.at, round(r.odometer_km::float8::numeric, 2)::float8 as km, round(r.slip_rpm::float8::numeric, 2)::float8 as slip,
      round(r.duty_pct::float8::numeric, 2)::float8 as duty, round(r.fluid_c::float8::numeric, 2)::float8 as fluid, r.codes
    from readings r join vehicles v on v.key = r.vehicle where v.unit = ${unit} order by r.at`.then((rows) =>
    rows.map(({ at, km, slip, duty, fluid, codes }) => [
      new Date(at).toISOString(),
      km,
      slip,
      duty,
      fluid,
      codes,
    ]),
  );

describe('a file of another form, dropped on a real server', () => {
  it.each(foreignFiles)('goes in through the screen: $habit', async (one) => {
    const { page, complaints } = await open();
    await drop(page, one);
    const sum = one.rows === null ? 'rows' : 'moments';
    if (one.given.zone !== undefined) {
      await wouldStore(page, 'No row can be read yet: 1 thing is still lacking.');
      await page.getByLabel('Time zone of clocks that say none').fill(one.given.zone);
      await page.getByLabel('The zone is kept').selectOption('not: another time it is another');
    }
    const { lines, good, bad } = one.counts;
    await wouldStore(page, `${good} of ${lines} ${sum} would be stored, ${bad} refused.`);
    for (const unit of one.units)
      expect((await app.get(`/api/vehicles/${encodeURIComponent(unit)}`)).status).toBe(404);
    await page.getByLabel('How the file is read is kept as').fill(one.saved);
    await page.getByRole('button', { name: 'Keep it and store the file' }).click();
    await page
      .getByText(`${good} readings stored, ${bad} ${bad === 1 ? 'line' : 'lines'} refused and kept.`)
      .waitFor();
    const link = await page.getByRole('link', { name: 'The delivery', exact: true }).getAttribute('href');
    const id = new URL(link ?? '', app.url).searchParams.get('open');
    const kept = receipt.parse(await (await app.get(`/api/receipts/${id}`)).json());
    expect(kept.refused_lines.map(({ line, raw }) => ({ line, raw }))).toEqual(one.refused);
    const wanted = one.readings as { unit: string; at: string; km: number; slip: number; duty: number }[];
    const stored = (await Promise.all(one.units.map(storedOf))).flat();
    expect(stored.map(([at, km, slip, duty]) => [at, km, slip, duty])).toEqual(
      wanted.map(({ at, km, slip, duty }) => [at, Math.round(km * 100) / 100, slip, duty]),
    );
    const mappings = storedMapping.array().parse(await (await app.get('/api/mappings')).json());
    expect(mappings.find(({ name }) => name === one.saved)?.mapping).toMatchObject(one.mapping);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is long, and a second of its kind is read as the first was kept', async () => {
    const { page, complaints } = await open();
    const moment = (unit: string, at: string, km: number, slip: number) =>
      [
        ['Odometer', km],
        ['TCC slip speed', slip],
        ['TCC duty cycle', 85],
        ['Trans fluid temp', 90],
        ['Cabin temp', 21],
      ].map(([name, value]) => `${unit},${at},${name},${value}`);
    const file = (name: string, ...moments: string[][]) =>
      text(name, ['vehicle,timestamp,signal,value', ...moments.flat()]);
    await drop(
      page,
      file(
        'signals-1.csv',
        moment('L-1', '2026-02-03T06:00:00Z', 52_000.5, 14),
        moment('L-1', '2026-02-03T07:00:00Z', 52_060, 15.5),
      ),
    );
    await expect.poll(() => page.getByLabel('One row is').inputValue()).toBe('long');
    await page.getByLabel('TCC slip speed is taken for').selectOption('slip');
    await page.getByLabel('TCC duty cycle is taken for').selectOption('commanded duty');
    await wouldStore(page, 'All 2 moments would be stored.');
    await page.getByRole('button', { name: 'Keep it and store the file' }).click();
    await page.getByText(/^2 readings stored/).waitFor();
    expect(await storedOf('L-1')).toEqual([
      ['2026-02-03T06:00:00.000Z', 52_000.5, 14, 85, 90, null],
      ['2026-02-03T07:00:00.000Z', 52_060, 15.5, 85, 90, null],
    ]);
    await page.getByRole('button', { name: 'Take out signals-1.csv' }).click();
    await drop(page, file('signals-2.csv', moment('L-2', '2026-02-04T06:00:00Z', 9_000, 11)));
    await wouldStore(page, 'The one moment would be stored.');
    await page.getByRole('button', { name: 'Store the file', exact: true }).click();
    await page.getByText(/^1 reading stored/).waitFor();
    expect(await storedOf('L-2')).toEqual([['2026-02-04T06:00:00.000Z', 9_000, 11, 85, 90, null]]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('has units in its cells and no date, one file a vehicle, two at once', async () => {
    const { page, complaints } = await open();
    const head = 'Time\tOdo\tEngine speed\tTurbine speed\tTCC duty\tATF temp';
    const files = ['M-1', 'M-2'].map((unit, i) =>
      text(`${unit}.txt`, [
        head,
        `23:59:30\t${70_000 + i} km\t2124RPM\t2110RPM\t85 %\t194 °F`,
        `00:00:30\t${70_001 + i} km\t2120RPM\t2108RPM\t85 %\t194 °F`,
      ]),
    );
    await drop(page, ...files);
    await page.getByLabel('The vehicle is named').waitFor();
    await page.getByLabel('The vehicle is named').selectOption("in the file's name");
    await page.getByLabel('The day is').selectOption('said here, for each file');
    for (const i of [0, 1]) await page.getByLabel('Day of the first row').nth(i).fill('2026-02-03');
    await page.getByLabel('Time zone of clocks that say none').fill('+02:00');
    await wouldStore(page, 'All 2 rows would be stored.');
    await page.getByRole('button', { name: 'Keep it and store 2 files' }).click();
    await expect.poll(() => page.getByText(/^2 readings stored/).count()).toBe(2);
    for (const [i, unit] of ['M-1', 'M-2'].entries())
      expect(await storedOf(unit)).toEqual([
        ['2026-02-03T21:59:30.000Z', 70_000 + i, 14, 85, 90, null],
        ['2026-02-03T22:00:30.000Z', 70_001 + i, 12, 85, 90, null],
      ]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('a CAN log, dropped on a real server', () => {
  it('shows what was on the bus, asks for vehicle and start, and is folded over windows', async () => {
    const { page, complaints } = await open();
    const log = toLog(
      drive({
        fromS: 0,
        seconds: 30,
        lockup: 1,
        engineRpm: 1500,
        slipRpm: 12,
        fluidC: 88,
        odometerKm: 61_000,
      }),
    );
    await drop(page, { name: 'bus.log.gz', bytes: gzipSync(log) });
    await page.getByRole('heading', { name: 'Vehicle, start and windows' }).waitFor();
    await page
      .getByRole('region', { name: 'Signals in the log' })
      .getByRole('row', { name: /SPN 190/ })
      .waitFor();
    await page.getByText('No VIN was sent.').waitFor();
    await page.getByLabel('Vehicle', { exact: true }).fill('C-7');
    await page.getByLabel(/^Its clock stood at 0/).fill('2026-02-03T06:00:00');
    await wouldStore(page, 'All 3 windows would be stored.');
    const rows = page.getByRole('region', { name: 'First rows as they would be read' });
    expect(await rows.getByRole('row').count()).toBe(4);
    expect(await rows.getByRole('columnheader', { name: 'In the file' }).count()).toBe(0);
    await page.getByRole('button', { name: 'Store the file', exact: true }).click();
    await page.getByText(/^3 readings stored/).waitFor();
    const stored = await storedOf('C-7');
    // Lockup engaged counts as a command of 100 %.
    expect(stored.map(([, , slip, duty, fluid]) => [slip, duty, fluid])).toEqual([
      [12, 100, 88],
      [12, 100, 88],
      [12, 100, 88],
    ]);
    expect(stored.every(([at]) => String(at).startsWith('2026-02-03T06:00:'))).toBe(true);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

it('sends a large file while saying how much has left, and keeps what was stored where it is stopped', async () => {
  const { page } = await open();
  const rows = Array.from(
    { length: 60_000 },
    (_, i) =>
      `G-${i % 20},${new Date(Date.UTC(2026, 0, 5) + Math.floor(i / 20) * 60_000).toISOString()},${50_000 + Math.floor(i / 200)},12,85`,
  );
  await drop(page, text('large.csv', ['vehicle,at,odometer_km,slip_rpm,duty_pct', ...rows]));
  await page.getByText('in our own form').last().waitFor();
  const session = await page.context().newCDPSession(page);
  await session.send('Network.enable');
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 0,
    downloadThroughput: -1,
    // Slow enough that much is left to send while the buttons are pressed.
    uploadThroughput: 250_000,
  });
  await page.getByRole('button', { name: 'Store the file', exact: true }).click();
  const progress = page.getByRole('progressbar', { name: 'large.csv, sent' });
  await expect.poll(async () => Number(await progress.getAttribute('value'))).toBeGreaterThan(500_000);
  await page.getByRole('link', { name: 'Deliveries', exact: true }).first().click();
  await page.getByRole('dialog').getByRole('button', { name: 'Stay here' }).click();
  await page.getByRole('button', { name: 'Stop', exact: true }).click();
  await page.getByText('Stopped. What was stored before stays').waitFor();
  await session.send('Network.emulateNetworkConditions', {
    offline: false,
    latency: 0,
    downloadThroughput: -1,
    uploadThroughput: -1,
  });
  await page.getByRole('button', { name: 'Store the file', exact: true }).click();
  const words = page.getByText(/readings? stored/);
  await words.waitFor();
  const [{ n } = { n: 0 }] = await app.client<{ n: number }[]>`
    select count(*)::int as n from readings r join vehicles v on v.key = r.vehicle where v.unit like 'G-%'`;
  expect(n).toBe(60_000);
  const [{ id } = { id: '' }] = await app.client<{ id: string }[]>`
    select id from receipts where file = 'large.csv' order by at desc limit 1`;
  expect(receipt.parse(await (await app.get(`/api/receipts/${id}`)).json())).toMatchObject({
    complete: true,
    received: 60_000,
    refused: 0,
  });
  await page.close();
});
