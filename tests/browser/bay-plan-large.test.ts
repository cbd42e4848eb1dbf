import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { fixtureNow } from './fixtures/access-fixture.ts';
import { makeBayPlan } from './fixtures/bay-plan-fixture.ts';
import { newPage } from './new-page.ts';
import { expectToFit } from './open-access.ts';
import { serveBayPlan } from './open-bay-plan.ts';
import { origin } from './open-page.ts';

const plan = makeBayPlan({ depots: 10, bays: 4, days: 30, bookings: 400, holds: 11 });
/** The processors are shared: a second is not always enough. */
const patient = { timeout: 20_000 };
let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

async function visit(search: string, width = 1280, served = plan) {
  const page = await newPage(browser, { viewport: { width, height: 900 }, hasTouch: width < 500 });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type()) && !message.text().includes('404'))
      complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime(fixtureNow);
  await serveBayPlan(page, served);
  await page.goto(`${origin}/bay-plan?from=2026-03-02${search}`);
  return { page, complaints };
}

const cards = (page: Page) => page.getByRole('grid').locator('[data-card]');

it('draws 400 bookings in the 40 bays of ten depots, and goes to the last bay by keys', async () => {
  const { page, complaints } = await visit('&days=30');
  await expect.poll(() => cards(page).count(), patient).toBe(400);
  await page.getByRole('gridcell', { name: /^Harrow Vale, bay 1, Fri 6 Mar/ }).focus();
  for (let i = 0; i < 150; i++) await page.keyboard.press('ArrowDown');
  const name = await page.evaluate(() => document.activeElement?.closest('[role=gridcell]')?.textContent);
  const label = await page.evaluate(() => document.activeElement?.getAttribute('aria-label'));
  expect(label ?? name).toMatch(/^Low Ashby, bay 4, Fri 6 Mar/);
  await page.keyboard.press('End');
  expect(
    await page.evaluate(() => document.activeElement?.closest('[data-day]')?.getAttribute('data-day')),
  ).toBe('29');
  await expectToFit(page);
  expect(complaints).toEqual([]);
  await page.close();
});

it('marks what is over without an end, and what no longer fits, with why', async () => {
  const { page } = await visit('&days=28');
  await cards(page).first().waitFor();
  const past = plan.bookings.find((one) => one.past);
  expect(await page.getByRole('grid').locator(`[data-card="b${past?.id}"]`).textContent()).toContain(
    'nobody has said what became of it',
  );
  const misfit = plan.bookings.find((one) => !one.fits && !one.past && one.state === 'booked');
  const card = page.getByRole('grid').locator(`[data-card="b${misfit?.id}"]`);
  expect(await card.textContent()).toContain('Bay 4 is not there any more');
  expect(await card.locator('b').textContent()).toBe('!');
  await card.click();
  await page.getByRole('complementary').getByText('Bay 4 is not there any more.').waitFor();
  await page.close();
});

it('puts what stands first on top: all vehicles on hold without a day, some of them folded away', async () => {
  const { page } = await visit('');
  const band = page.getByRole('region', { name: '11 vehicles on hold have no day' });
  await band.waitFor();
  expect(await band.getByRole('button', { name: /^Find a day for/ }).count()).toBe(8);
  await band.getByRole('button', { name: 'Show all 11' }).click();
  expect(await band.getByRole('button', { name: /^Find a day for/ }).count()).toBe(11);
  await page.close();
});

it.each([1280, 1920])('passes WCAG 2.2 AA with a full week at %i px', async (width) => {
  const { page, complaints } = await visit('&days=7&depot=harrow-vale', width);
  await cards(page).first().waitFor();
  expect(await findViolations(page)).toEqual([]);
  await expectToFit(page);
  expect(complaints).toEqual([]);
  await page.close();
});

it('lists the same plan day by day on a phone, with nothing cut off', async () => {
  const { page, complaints } = await visit('&days=7', 390);
  await page.getByRole('heading', { name: /Mon 2 Mar/ }).waitFor();
  const shown = plan.bookings.filter(({ day }) => day !== null && day <= '2026-03-08').length;
  expect(await page.locator('main h2 ~ div [data-card]').count()).toBe(shown);
  await expectToFit(page);
  expect(complaints).toEqual([]);
  await page.close();
});

it('says that there is no depot where there is none', async () => {
  const { page } = await visit('', 1280, {
    ...plan,
    depots: [],
    bookings: [],
    put_off: [],
    past: [],
    uncovered_holds: [],
  });
  await page.getByText('There is no depot to plan for.').waitFor();
  expect(await findViolations(page)).toEqual([]);
  await page.close();
});
