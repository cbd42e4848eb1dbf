import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { z } from 'zod';
import { bookingList } from '#server/contract/bookings.ts';
import { type PlatformSummary, platformSummary } from '#server/contract/movement.ts';
import { packetList } from '#server/contract/packets.ts';
import { type Ranking, type RankingRow, ranking } from '#server/contract/ranking.ts';
import type { Role } from '#server/contract/words.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { type DemoPerson, signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { type Program, startProgram } from '#tests/measure/start-program.ts';
import { listAnalysisPictures } from './analysis-pictures.ts';
import { listDeskPictures } from './desk-pictures.ts';
import { listBringPictures } from './intake-pictures.ts';
import type { Picture } from './picture.ts';
import { listPlanningPictures } from './planning-pictures.ts';
import { prepareDemo } from './prepare-demo.ts';
import { prepareWebhook } from './prepare-webhook.ts';
import { listSetUpPictures } from './set-up-pictures.ts';

/**
 * `npm run pictures`: takes the pictures of the guide from a demo that runs (`-- --url http://127.0.0.1:4280`), or from
 * one that it starts on the demo's usual folder. `-- --only platform` takes those whose names begin so.
 */
const root = join(import.meta.dirname, '../..');
const folder = join(root, 'docs/guide/pictures');
const LONGEST_WAIT_MS = 60_000;

const { values } = parseArgs({ options: { url: { type: 'string' }, only: { type: 'string' } } });
let demo: Program | null = null;
try {
  if (values.url === undefined) demo = await startProgram(['demo'], join(root, 'data'));
  const url = new URL(values.url ?? demo?.url ?? '').origin;
  const browser = await launchBrowser();
  try {
    await mkdir(folder, { recursive: true });
    const admin = await signInToDemo(url, 'admin');
    const people = {
      admin,
      planner: await signInToDemo(url, 'planner'),
      shop: await signInToDemo(url, 'shop'),
      analyst: await signInToDemo(url, 'analyst'),
    };
    const list = await readList(admin);
    const pictures = [
      ...listPictures(list),
      ...(await planPictures(admin, list)),
      ...(await packetPictures(admin)),
      ...listPlatformPictures(await readPlatforms(admin)),
      ...(await analysisPictures(people.analyst, list)),
      ...listBringPictures(),
      ...listDeskPictures(),
      ...listSetUpPictures(),
    ];
    const usual = pictures.filter(isWanted);
    for (const picture of usual) await take(browser, url, picture, people);
    const access = (await listAccessPictures(admin)).filter(isWanted);
    if (usual.length + access.length === 0)
      throw new Error(`No picture has a name that begins with ${values.only}.`);
    for (const picture of access) await take(browser, url, picture, people);
    for (const { ask } of Object.values(people)) await ask('/api/session', 'DELETE');
  } finally {
    await browser.close();
  }
} finally {
  await demo?.stop();
}

function isWanted({ name }: Pick<Picture, 'name'>): boolean {
  return name.startsWith(values.only ?? '');
}

async function readList({ ask }: DemoPerson): Promise<Ranking> {
  return ranking.parse(await (await ask('/api/ranking?limit=100')).json());
}

async function readPlatforms({ ask }: DemoPerson): Promise<PlatformSummary[]> {
  return z.array(platformSummary).parse(await (await ask('/api/movement')).json());
}

/** Taken last: what they need changes the demo. */
async function listAccessPictures(admin: DemoPerson): Promise<Picture[]> {
  const { rows } = await readList(admin);
  const shown = rows.find((row) => tellsAStory(row) && row.depot !== null);
  if (shown?.depot == null) throw new Error('No vehicle of a depot drifts: none can be shown at a shop.');
  const settings = { width: 1280, height: 640 };
  const vehicle = `/vehicles/${encodeURIComponent(shown.vehicle)}`;
  const hook = isWanted({ name: 'webhooks' }) ? await prepareWebhook(admin) : 0;
  const pictures: Picture[] = [
    { name: 'sign-in', address: '/', width: 1280, height: 560, as: null, ready: 'main form' },
    { name: 'account', address: '/account', width: 1280, height: 760, ready: 'main li' },
    { name: 'people', address: '/settings/people', ...settings, ready: 'main tbody tr' },
    { name: 'keys', address: '/settings/keys', ...settings, height: 440, ready: 'main tbody tr' },
    {
      name: 'webhooks',
      address: `/settings/webhooks?open=${hook}`,
      ...settings,
      height: 860,
      ready: 'main section tbody tr',
    },
    {
      name: 'storage',
      address: '/settings/storage',
      ...settings,
      height: 1100,
      ready: 'main [data-chart=ready]',
    },
    { name: 'changes', address: '/settings/changes', ...settings, ready: 'main ol > li' },
    { name: 'vehicle-at-shop', address: vehicle, width: 1280, height: 700 },
    { name: 'vehicle-shop-phone', address: vehicle, width: 390, height: 844, as: 'shop' },
  ];
  if (pictures.some(isWanted)) await prepareDemo(admin, shown.vehicle, shown.depot);
  return pictures;
}

/** Of the open packet in which most was found, with a recorded road test. */
async function packetPictures({ ask }: DemoPerson): Promise<Picture[]> {
  const { packets } = packetList.parse(await (await ask('/api/packets?state=open')).json());
  const shown = packets.toSorted((a, b) => b.findings - a.findings)[0];
  if (shown === undefined || shown.findings < 2)
    throw new Error('No packet with findings is open: the demo is too old, start a fresh one.');
  const address = `/packets/${shown.id}`;
  const ready = '[data-chart] svg path';
  // Charts further down are drawn when they come near.
  const act = (page: Page) => page.waitForTimeout(2500);
  const phone = { width: 390, height: 844, as: 'shop', ready } as const;
  return [
    { name: 'packets-phone', address: '/packets', ...phone, ready: 'main li' },
    { name: 'packet-phone', address, ...phone },
    {
      name: 'packet-step-phone',
      address: `${address}?step=solenoid_current`,
      ...phone,
      act,
      from: '[data-step="solenoid_current"]',
    },
    {
      name: 'packet-road-test',
      address: `${address}?step=road_test`,
      width: 1920,
      height: 700,
      ready,
      act,
      from: 'h4:has-text("Slip over the drive")',
    },
    {
      name: 'packet-tree',
      address,
      width: 1280,
      height: 900,
      ready,
      act,
      from: 'h3:has-text("How the findings lead on")',
    },
  ];
}

/** Of the first day ahead on which something is booked, and of two vehicles that are worth a look. */
async function planPictures({ ask }: DemoPerson, { rows }: Ranking): Promise<Picture[]> {
  const booked = bookingList.parse(await (await ask('/api/bookings?state=booked')).json())[0];
  if (booked?.day == null) throw new Error('Nothing is booked: the demo is too old, start a fresh one.');
  const compared = rows.filter(({ onset_km: onset }) => onset !== null).slice(0, 2);
  return listPlanningPictures(
    booked.depot,
    booked.day,
    compared.map(({ vehicle }) => vehicle),
  );
}

/** The platform that moved, where one did. */
function listPlatformPictures(platforms: readonly PlatformSummary[]): Picture[] {
  const shown = platforms.find(({ events }) => events.length > 0) ?? platforms.find(({ id }) => id !== null);
  if (shown?.id == null) throw new Error('No platform is set up: there is nothing to take pictures of.');
  const address = `/platforms/${encodeURIComponent(shown.id)}`;
  return [
    { name: 'platforms', address: '/platforms', width: 1280, height: 560 },
    { name: 'platform', address, width: 1280, height: 1040 },
    { name: 'platform-dark', address, width: 1280, height: 740, ground: 'dark' },
    { name: 'platform-phone', address, width: 390, height: 844 },
  ];
}

/** With a drifting vehicle on top of its platform. */
function analysisPictures(analyst: DemoPerson, { rows }: Ranking): Promise<Picture[]> {
  const shown = rows.find((row) => tellsAStory(row) && row.platform !== null);
  if (shown?.platform == null) throw new Error('No vehicle of a platform drifts: none can lie on top of it.');
  return listAnalysisPictures(analyst, shown.platform, shown.vehicle, isWanted);
}

function listPictures({ rows }: Ranking): Picture[] {
  const shown = rows.find(tellsAStory) ?? rows[0];
  if (shown === undefined) throw new Error('The list is empty: there is nothing to take pictures of.');
  const vehicle = `/vehicles/${encodeURIComponent(shown.vehicle)}`;
  const opened = `/?open=${encodeURIComponent(shown.vehicle)}`;
  return [
    { name: 'list', address: '/', width: 1280, height: 800 },
    { name: 'list-wide', address: '/', width: 1920, height: 900 },
    {
      name: 'list-row',
      address: opened,
      width: 1280,
      height: 480,
      from: `[data-vehicle="${shown.vehicle}"]`,
    },
    { name: 'list-phone', address: '/', width: 390, height: 844 },
    { name: 'vehicle', address: vehicle, width: 1280, height: 1000 },
    {
      name: 'vehicle-below',
      address: vehicle,
      width: 1280,
      height: 1100,
      from: 'h3:has-text("then and now")',
    },
    { name: 'vehicle-dark', address: vehicle, width: 1280, height: 1000, ground: 'dark' },
    { name: 'vehicle-phone', address: vehicle, width: 390, height: 844 },
  ];
}

/** A drift whose beginning was seen, with some way left: onset, fan and limit stand in one view. */
function tellsAStory({ grade, onset_km, km_to_limit: { p10, p50 }, reasons }: RankingRow): boolean {
  return (
    grade === 'book' &&
    onset_km !== null &&
    (p10 ?? 0) > 500 &&
    (p50 ?? Number.POSITIVE_INFINITY) < 5000 &&
    reasons[0]?.startsWith('Slip has risen') === true
  );
}

async function take(
  browser: Browser,
  url: string,
  picture: Picture,
  people: Partial<Record<Role, DemoPerson>>,
): Promise<void> {
  const { name, address, width, height, ground = 'light', from, as = 'admin', ready, act } = picture;
  const page = await browser.newPage({
    viewport: { width, height },
    colorScheme: ground,
    reducedMotion: 'reduce',
    locale: 'en',
    timezoneId: 'UTC',
    // The style below is the picture's own.
    bypassCSP: true,
  });
  try {
    if (as !== null) await page.context().addCookies(people[as]?.cookies ?? []);
    await page.goto(url + address, { waitUntil: 'networkidle', timeout: LONGEST_WAIT_MS });
    // No scroll bar is drawn here, so no room is kept for one.
    await page.addStyleTag({ content: 'html { scrollbar-gutter: auto !important }' });
    if (ready === undefined) await page.waitForFunction(isDrawn, undefined, { timeout: LONGEST_WAIT_MS });
    else await page.locator(ready).first().waitFor({ timeout: LONGEST_WAIT_MS });
    await page.evaluate(() => document.fonts.ready);
    await act?.(page);
    if (from !== undefined) await showFrom(page, from);
    await page.screenshot({ path: join(folder, `${name}.png`), animations: 'disabled', caret: 'hide' });
    console.log(`${name}.png, ${width} x ${height}, ${address}`);
  } finally {
    await page.close();
  }
}

/** Runs in the page. */
function isDrawn(): boolean {
  const charts = [...document.querySelectorAll('[data-chart]')];
  const rows = document.querySelectorAll('[data-row-button], [data-strip]');
  return charts.length + rows.length > 0 && charts.every((chart) => chart.querySelector('svg path') !== null);
}

/** Below the table's head, which stays in sight. */
async function showFrom(page: Page, selector: string): Promise<void> {
  const above = 60;
  await page
    .locator(selector)
    .first()
    .evaluate((element, gap) => {
      window.scrollTo(0, element.getBoundingClientRect().top + scrollY - gap);
    }, above);
  await page.waitForTimeout(200);
}
