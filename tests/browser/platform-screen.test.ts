import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { PlatformMovement, PlatformSummary } from '#server/contract/movement.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { fixtureSummaries, makeMovement } from './fixtures/movement-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { vehicleCases } from './fixtures/vehicle-cases.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';
import { serveVehicle, vehicleAddress } from './open-vehicle.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  summaries?: readonly PlatformSummary[];
  movements?: readonly PlatformMovement[];
}

async function open(path: string, options: Options = {}) {
  const {
    width = 1280,
    colorScheme = 'light',
    summaries = fixtureSummaries,
    movements = [makeMovement()],
  } = options;
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch: width < 500,
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime('2026-03-04T08:30:00Z');
  await serveFixture(page, makeRows(40));
  await serveMovement(page, summaries, movements);
  await page.goto(origin + path);
  return { page, complaints };
}

async function serveMovement(
  page: Page,
  summaries: readonly PlatformSummary[],
  movements: readonly PlatformMovement[],
): Promise<void> {
  await page.route(`${origin}/api/movement`, (route) => route.fulfill({ json: summaries }));
  for (const movement of movements)
    await page.route(`${origin}/api/platforms/${encodeURIComponent(movement.id ?? '-')}/movement`, (route) =>
      route.fulfill({ json: movement }),
    );
}

const isDrawn = (page: Page) => page.locator('[data-chart="ready"] svg text').first().waitFor();

async function expectToFit(page: Page): Promise<void> {
  const { scroll, shown } = await page.evaluate(() => ({
    scroll: document.documentElement.scrollWidth,
    shown: document.documentElement.clientWidth,
  }));
  expect(scroll).toBeLessThanOrEqual(shown);
}

describe('the platforms', () => {
  it.each([
    [1920, 'light'],
    [1280, 'dark'],
    [390, 'light'],
  ] as const)('pass WCAG 2.2 AA and fit at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await open('/platforms', { width, colorScheme });
    await page.getByRole('link', { name: 'Korvandel utility truck' }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('are listed with vehicles, limit and last step, or with why there is none', async () => {
    const { page } = await open('/platforms');
    const rows = page.locator('main > div > ul > li');
    await rows.first().waitFor();
    const texts = (await rows.allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' '));
    expect(texts).toEqual([
      expect.stringMatching(
        /^Korvandel utility truck vehicles 69 limit 170 rpm 17 Sept? 2025: \+25 rpm on 55 vehicles$/,
      ),
      'Morvelt bus vehicles 118 limit 150 rpm no step found',
      'Ulvarrock van vehicles 3 limit 170 rpm too few vehicles to tell',
      'Tervallo shuttle vehicles 0 limit 170 rpm nothing assessed yet',
      'No platform vehicles 4 limit 170 rpm too few weeks to tell',
    ]);
    await page.close();
  });

  it('are reached from the navigation and opened, by keys alone', async () => {
    const { page, complaints } = await open('/');
    const nav = page.getByRole('navigation', { name: 'Screens' });
    await nav.getByRole('link', { name: 'Platforms' }).press('Enter');
    const platform = page.getByRole('link', { name: 'Korvandel utility truck' });
    await platform.press('Enter');
    await page.getByRole('heading', { level: 1, name: 'Korvandel utility truck' }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/platforms/korvandel');
    expect(await nav.getByRole('link', { name: 'Platforms' }).getAttribute('aria-current')).toBe('page');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('say how one comes in where there is none', async () => {
    const { page } = await open('/platforms', { summaries: [] });
    await page.getByText('Platforms come with POST /api/platforms').waitFor();
    await page.close();
  });

  it('say what was refused, and ask again', async () => {
    const { page } = await open('/');
    let asked = 0;
    await page.route(`${origin}/api/movement`, (route) => {
      asked += 1;
      return asked > 1 ? route.fallback() : route.fulfill({ status: 500, body: 'no' });
    });
    await page.goto(`${origin}/platforms`);
    await page.getByRole('button', { name: 'Try again' }).click();
    await page.getByRole('link', { name: 'Morvelt bus' }).waitFor();
    await page.close();
  });
});

describe('one platform', () => {
  it.each([
    [1920, 'dark'],
    [1280, 'light'],
    [390, 'dark'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s, its numbers open', async (width, colorScheme) => {
    const { page, complaints } = await open('/platforms/korvandel', { width, colorScheme });
    await isDrawn(page);
    await page.keyboard.press('n');
    await page.getByRole('table', { name: /^Common movement by week/ }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    const small = await page
      .locator('main button')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.9).length);
    if (width < 500) expect(small).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('draws its movement and names the step by date and size, on the picture and beside it', async () => {
    const { page } = await open('/platforms/korvandel');
    await isDrawn(page);
    const words = await page.locator('[data-chart] svg text').allTextContents();
    expect(words.join('\n')).toMatch(/^17 Sept? 2025: \+25 rpm at once on 55 vehicles$/m);
    await page.getByText('17 Sep 2025: +25 rpm at once on 55 vehicles; taken out of each vehicle.').waitFor();
    const picture = page.getByRole('img', { name: /^Common movement of Korvandel.*\+25 rpm at once/ });
    expect(await picture.count()).toBe(1);
    await page.close();
  });

  it('says what it means for the list, and leads to its part of the list', async () => {
    const { page } = await open('/platforms/korvandel');
    await page.getByText('No place on the inspection list rests on').waitFor();
    await page.getByRole('link', { name: 'Inspection list of this platform, 69 vehicles' }).click();
    await page.getByRole('heading', { level: 1, name: 'Inspection list' }).waitFor();
    expect(new URL(page.url()).searchParams.get('platform')).toBe('korvandel');
    await page.close();
  });

  it('has its effects in the units of the reader', async () => {
    const { page } = await open('/');
    await page.evaluate(() => localStorage.setItem('slipdrift.temperature', 'F'));
    await page.goto(`${origin}/platforms/korvandel`);
    const row = page.getByRole('row', { name: /^fluid, 10 °F hotter/ });
    await row.waitFor();
    // 0.066 rpm for each degC are 0.37 rpm for 10 degF (NIST SP 811: 1 degC is 1.8 degF).
    expect(await row.getByRole('cell').allTextContents()).toEqual(['+0.4', '+1.1']);
    await page.close();
  });

  it('says which condition the feeds lack', async () => {
    const { healthy, worn } = makeMovement().effects!;
    const lacking = { load_rpm_per_pct: null };
    const effects = { healthy: { ...healthy, ...lacking }, worn: { ...worn, ...lacking } };
    const { page } = await open('/platforms/korvandel', { movements: [makeMovement({ effects })] });
    const row = page.getByRole('row', { name: /^load, 10 % more/ });
    await row.waitFor();
    expect(await row.getByRole('cell').allTextContents()).toEqual(['not in the feeds', 'not in the feeds']);
    await page.close();
  });

  it.each([
    ['too_few_vehicles', 'With readings of 3 vehicles, 8 are needed.'],
    ['too_few_weeks', 'There are too few weeks.'],
    ['not_yet', 'Nothing is known yet.'],
  ] as const)('draws nothing where nothing was learned: %s', async (state, sentence) => {
    const nothing = { weeks: [], events: [], usual: null, effects: null };
    const movement = makeMovement({ ...nothing, state, sentence, id: 'few' });
    const { page, complaints } = await open('/platforms/few', { movements: [movement] });
    await page.getByText(sentence).waitFor();
    expect(await page.locator('[data-chart]').count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says that there was no step', async () => {
    const { page } = await open('/platforms/korvandel', { movements: [makeMovement({ events: [] })] });
    await page.getByText('None so far').waitFor();
    await page.close();
  });

  it('stands for the vehicles without one too, whose list is the whole', async () => {
    const { page } = await open('/platforms/-', {
      movements: [makeMovement({ id: null, name: 'No platform' })],
    });
    await page.getByRole('heading', { level: 1, name: 'No platform' }).waitFor();
    const link = page.getByRole('link', { name: 'Inspection list of the whole fleet' });
    expect(await link.getAttribute('href')).toBe('/');
    await page.close();
  });

  it('that nobody knows is said so', async () => {
    const { page } = await open('/platforms/nothing');
    await page.getByText('No platform has this id.').waitFor();
    await page.close();
  });
});

it('is reached from the step on the screen of a vehicle', async () => {
  const one = vehicleCases.drifting!;
  const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  await serveVehicle(page, one);
  await serveMovement(page, fixtureSummaries, [makeMovement({ id: one.platform, name: 'The platform' })]);
  await page.goto(vehicleAddress(one));
  const links = page.getByRole('link', { name: 'What the platform did' });
  await links.first().waitFor();
  await expect.poll(() => links.count()).toBe(2);
  await links.first().press('Enter');
  await page.getByRole('heading', { level: 1, name: 'The platform' }).waitFor();
  await page.close();
});
