import { mkdir } from 'node:fs/promises';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import type { Browser, Page } from 'playwright-core';
import { z } from 'zod';
import { type PlatformSummary, platformSummary } from '#server/contract/movement.ts';
import { type Ranking, type RankingRow, ranking } from '#server/contract/ranking.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { type Program, startProgram } from '#tests/measure/start-program.ts';

/**
 * `npm run pictures`: takes the pictures of the guide from a demo that runs (`-- --url http://127.0.0.1:4280`), or from
 * one that it starts on the demo's usual folder. `-- --only platform` takes those whose names begin so.
 */
interface Picture {
  name: string;
  address: string;
  width: number;
  height: number;
  ground?: 'dark';
  /** what the picture begins with; the top of the page unless said */
  from?: string;
}

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
    const pictures = [
      ...listPictures(await readList(url)),
      ...listPlatformPictures(await readPlatforms(url)),
    ];
    const wanted = pictures.filter(({ name }) => name.startsWith(values.only ?? ''));
    if (wanted.length === 0) throw new Error(`No picture has a name that begins with ${values.only}.`);
    for (const picture of wanted) await take(browser, url, picture);
  } finally {
    await browser.close();
  }
} finally {
  await demo?.stop();
}

async function readList(url: string): Promise<Ranking> {
  const answer = await fetch(`${url}/api/ranking?limit=100`);
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}: ${await answer.text()}`);
  return ranking.parse(await answer.json());
}

async function readPlatforms(url: string): Promise<PlatformSummary[]> {
  const answer = await fetch(`${url}/api/movement`);
  if (!answer.ok) throw new Error(`${url} answered ${answer.status}: ${await answer.text()}`);
  return z.array(platformSummary).parse(await answer.json());
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
function tellsAStory({ grade, onset_km, km_to_limit: { p10, p50 } }: RankingRow): boolean {
  return (
    grade === 'book' && onset_km !== null && (p10 ?? 0) > 500 && (p50 ?? Number.POSITIVE_INFINITY) < 5000
  );
}

async function take(browser: Browser, url: string, picture: Picture): Promise<void> {
  const { name, address, width, height, ground = 'light', from } = picture;
  const page = await browser.newPage({
    viewport: { width, height },
    colorScheme: ground,
    reducedMotion: 'reduce',
    locale: 'en',
    timezoneId: 'UTC',
  });
  try {
    await page.goto(url + address, { waitUntil: 'networkidle', timeout: LONGEST_WAIT_MS });
    // No scroll bar is drawn here, so no room is kept for one.
    await page.addStyleTag({ content: 'html { scrollbar-gutter: auto !important }' });
    await page.waitForFunction(isDrawn, undefined, { timeout: LONGEST_WAIT_MS });
    await page.evaluate(() => document.fonts.ready);
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
