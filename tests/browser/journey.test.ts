import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { ranking } from '#server/contract/ranking.ts';
import type { Role } from '#server/contract/words.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { plainEnd, plainFleet, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { signInAs, signInPage, TEST_PASSWORD } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { newPage } from './new-page.ts';

let browser: Browser;
let app: TestApp;
let axe: string;
const open: Page[] = [];
/** The processors are shared: a second is not always enough. */
const patient = { timeout: 20_000 };

beforeAll(async () => {
  await ensureScreens();
  axe = await readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  browser = await launchBrowser();
  app = await startApp({}, plainEnd);
});
afterEach(() => Promise.all(open.splice(0).map((page) => page.close())));
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

/** A page of the served screens; what it complains of is collected. */
async function visit(
  path: string,
  { width = 1280, colorScheme = 'light' as 'light' | 'dark', as = 'planner' as Role | null } = {},
) {
  const page = await newPage(browser, { viewport: { width, height: 900 }, colorScheme });
  open.push(page);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  page.on('requestfailed', (request) => {
    const why = request.failure()?.errorText;
    // A part of the screen that goes away calls off what it asked for.
    if (why !== 'net::ERR_ABORTED') complaints.push(`${request.method()} ${request.url()} ${why}`);
  });
  await page.clock.setFixedTime(plainEnd);
  if (as !== null) await signInPage(page, app, as);
  await page.goto(app.url + path);
  return { page, complaints };
}

const rowButtons = (page: Page) => page.locator('[data-row-button]');
const isDrawn = (page: Page) => page.locator('[data-chart="ready"] svg').first().waitFor();
const pathOf = (page: Page) => new URL(page.url()).pathname;
const searchOf = (page: Page) => new URL(page.url()).searchParams;

async function findViolations(page: Page): Promise<string[]> {
  await page.evaluate(axe);
  return page.evaluate(async () => {
    const run = Reflect.get(window, 'axe').run as (
      context: Document,
      options: object,
    ) => Promise<{ violations: { id: string; nodes: { html: string }[] }[] }>;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa'];
    const { violations } = await run(document, { runOnly: { type: 'tag', values: tags } });
    return violations.map(({ id, nodes }) => `${id}: ${nodes[0]?.html.slice(0, 200)}`);
  });
}

describe('before the first reading', () => {
  it.each(['light', 'dark'] as const)(
    'says how to send it, and passes WCAG 2.2 AA on a %s ground',
    async (colorScheme) => {
      const { page, complaints } = await visit('/', { colorScheme });
      await page.getByText('No vehicle has sent a reading yet').waitFor();
      expect(await page.locator('pre').first().textContent()).toContain(`curl ${app.url}/api/readings`);
      expect(await findViolations(page)).toEqual([]);
      expect(complaints).toEqual([]);
    },
  );
});

describe('where nobody is signed in', () => {
  it('asks who it is, says when that is wrong, and then shows what was asked for', async () => {
    const { page } = await visit('/vehicles/B-1?life=1', { as: null });
    const { email } = await signInAs(app, 'analyst');
    await page.getByRole('heading', { name: 'Sign in' }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.getByLabel('E-mail', { exact: true }).fill(email);
    await page.getByLabel('Password', { exact: true }).fill('wrong');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').waitFor();
    await page.getByLabel('Password', { exact: true }).fill(TEST_PASSWORD);
    await page.keyboard.press('Enter');
    await page.getByText('B-1', { exact: true }).first().waitFor();
    await page.getByRole('heading', { name: 'Sign in' }).waitFor({ state: 'detached' });
    expect(searchOf(page).get('life')).toBe('1');
    // Scripts of the page cannot read the cookie.
    expect(await page.evaluate(() => document.cookie)).toBe('');
    await app.client`delete from sessions`;
    await page.goto(`${app.url}/platforms`);
    await page.getByRole('heading', { name: 'Sign in' }).waitFor();
  });
});

describe('from the delivery to the vehicle', () => {
  beforeAll(() => sendPlainFleet(app));

  it('brings the vehicle that slips to the top of the list, opens its row, then the vehicle', async () => {
    const { page, complaints } = await visit('/');
    await rowButtons(page).first().waitFor();
    expect(await rowButtons(page).first().textContent()).toContain('P-01');
    await page.getByText(`${plainFleet.length} vehicles`, { exact: true }).waitFor();
    await rowButtons(page).first().click();
    await expect.poll(() => searchOf(page).get('open'), patient).toBe('P-01');
    const { rows } = ranking.parse(await (await app.get('/api/ranking?limit=1')).json());
    await page
      .getByText(rows[0]?.reasons[0] ?? 'no reason')
      .first()
      .waitFor();
    await page.locator('main a[href*="/vehicles/P-01"]').first().click();
    await expect.poll(() => pathOf(page), patient).toBe('/vehicles/P-01');
    await isDrawn(page);
    await page.getByRole('heading', { level: 1, name: 'P-01' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('draws the chart of the vehicle and lists its numbers', async () => {
    const { page, complaints } = await visit('/vehicles/P-02');
    await isDrawn(page);
    const name = /^Slip against mileage\. Slip at 85 % command has risen/;
    await page.getByRole('application', { name }).waitFor();
    expect(await page.locator('[data-chart="ready"] svg path').count()).toBeGreaterThan(20);
    const rows = () => page.locator('main table tbody tr').count();
    const before = await rows();
    await page.keyboard.press('n');
    // Every drawn stretch is a line: the rise is drawn first, from some way before the onset.
    const { series } = await (await app.get('/api/vehicles/P-02/series')).json();
    const [onset] = series[0].fits;
    const risen = series[0].points.filter(
      (point: { odometer_km: number }) => point.odometer_km > onset.onset_km.estimate,
    );
    expect(risen.length).toBeGreaterThan(10);
    await expect.poll(async () => (await rows()) - before, patient).toBeGreaterThanOrEqual(risen.length);
    expect(complaints).toEqual([]);
  });

  it('keeps filters in the address, also over a reload and the way back', async () => {
    const { page } = await visit('/?grade=hold,book&platform=p-type&q=P-0');
    const shown = async () => (await rowButtons(page).allTextContents()).join(' ');
    const wanted = ranking.parse(
      await (await app.get('/api/ranking?grade=hold,book&platform=p-type&q=P-0')).json(),
    );
    expect(wanted.rows.length).toBeGreaterThan(1);
    const isRight = async () => {
      await expect.poll(() => rowButtons(page).count(), patient).toBe(wanted.rows.length);
      for (const row of wanted.rows) expect(await shown()).toContain(row.vehicle);
    };
    await isRight();
    await page.reload();
    await isRight();
    expect(searchOf(page).get('platform')).toBe('p-type');
    await rowButtons(page).first().click();
    await page.locator('main a[href*="/vehicles/P-01"]').first().click();
    await isDrawn(page);
    await page.goBack();
    await isRight();
    expect(searchOf(page).get('q')).toBe('P-0');
  });

  it('goes by keys alone: search, down, open, vehicle, numbers, back', async () => {
    const { page, complaints } = await visit('/');
    await rowButtons(page).first().waitFor();
    await page.keyboard.press('/');
    await page.keyboard.type('Q-0');
    await expect.poll(() => rowButtons(page).count(), patient).toBe(8);
    const isOnFirst = () =>
      rowButtons(page)
        .first()
        .evaluate((button) => button === document.activeElement);
    for (let i = 0; i < 40 && !(await isOnFirst()); i++) await page.keyboard.press('Tab');
    expect(await isOnFirst()).toBe(true);
    await page.keyboard.press('Enter');
    const [first] = ranking.parse(await (await app.get('/api/ranking?q=Q-0')).json()).rows;
    await expect.poll(() => searchOf(page).get('open'), patient).toBe(first?.vehicle);
    await page.keyboard.press('o');
    await expect.poll(() => pathOf(page), patient).toBe(`/vehicles/${first?.vehicle}`);
    await isDrawn(page);
    await page.keyboard.press('n');
    await page.getByRole('table').first().waitFor();
    // The browser's own key for this is not to be had without its window.
    await page.goBack();
    await expect.poll(() => pathOf(page), patient).toBe('/');
    expect(searchOf(page).get('q')).toBe('Q-0');
    expect(complaints).toEqual([]);
  });

  it('says of a vehicle that nobody knows that it is not known', async () => {
    const { page } = await visit('/vehicles/X-404');
    await page.getByText(/X-404/).first().waitFor();
    expect(await findViolations(page)).toEqual([]);
  });

  it.each([
    ['/?open=P-01', 'light'],
    ['/?open=P-01', 'dark'],
    ['/vehicles/P-02', 'light'],
    ['/vehicles/P-02', 'dark'],
    ['/vehicles/P-07', 'light'],
    ['/vehicles/P-07', 'dark'],
  ] as const)(
    'passes WCAG 2.2 AA at %s on a %s ground, on a desk and on a phone',
    async (path, colorScheme) => {
      for (const width of [1280, 390]) {
        const { page, complaints } = await visit(path, { colorScheme, width });
        if (width < 768 && path.startsWith('/?')) await page.getByText('When limits are reached').click();
        await isDrawn(page);
        expect(await findViolations(page)).toEqual([]);
        expect(complaints).toEqual([]);
      }
    },
  );
});
