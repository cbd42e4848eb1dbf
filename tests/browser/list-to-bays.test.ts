import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { type Plan, plan, planRequest } from '#server/contract/plan.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { signInPage } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { storeMadeFleet } from '#tests/helpers/store-made-fleet.ts';
import { newPage } from './new-page.ts';

const now = new Date('2026-03-04T08:30:00Z');
let browser: Browser;
let app: TestApp;

beforeAll(async () => {
  await ensureScreens();
  browser = await launchBrowser();
  app = await startApp({}, now);
  await storeMadeFleet(app.running.context, 260);
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

async function visit(path: string) {
  const page = await newPage(browser, { viewport: { width: 1280, height: 900 } });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime(now);
  await signInPage(page, app, 'planner');
  await page.goto(app.url + path);
  return { page, complaints };
}

/** Asks for a proposal and answers what was asked for, and what came. */
async function propose(page: Page): Promise<{ vehicles: string[]; proposed: Plan }> {
  const answer = page.waitForResponse((one) => new URL(one.url()).pathname === '/api/plan');
  await page.getByRole('button', { name: 'Propose', exact: true }).press('Enter');
  const response = await answer;
  expect(response.status()).toBe(200);
  return {
    vehicles: planRequest.parse(response.request().postDataJSON()).vehicles ?? [],
    proposed: plan.parse(await response.json()),
  };
}

describe('from the list to the bays', () => {
  it('goes with exactly the vehicles that were ticked', async () => {
    const { page, complaints } = await visit('/?grade=hold,book&booking=none');
    const rows = page.locator('[data-vehicle]');
    await rows.first().waitFor();
    const shown = await rows.evaluateAll((all) => all.map((row) => row.getAttribute('data-vehicle') ?? ''));
    await page.getByLabel(`Choose all ${shown.length}`).press('Space');
    await page.getByText(`${shown.length} vehicles chosen`).waitFor();
    await page.getByLabel(`Choose ${shown[1]}`, { exact: true }).press('Space');
    const chosen = shown.filter((_, i) => i !== 1);
    await page.getByRole('link', { name: `Find days for ${chosen.length} vehicles` }).press('Enter');
    await page.getByText(`For the ${chosen.length} vehicles chosen in the list`).waitFor();
    const { vehicles, proposed } = await propose(page);
    expect(vehicles.toSorted()).toEqual(chosen.toSorted());
    const told = [...proposed.assignments, ...proposed.left_out].map(({ vehicle }) => vehicle);
    expect(told.length).toBeGreaterThan(0);
    expect(told.filter((vehicle) => !chosen.includes(vehicle))).toEqual([]);
    await expect.poll(() => new URL(page.url()).searchParams.get('propose'), { timeout: 20_000 }).toBe(null);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('goes with hundreds, which the window keeps; another window says that it does not know them', async () => {
    const { page } = await visit('/');
    await page.getByLabel('Choose all 260').press('Space');
    await page.getByRole('link', { name: 'Find days for 260 vehicles' }).press('Enter');
    await page.getByText('For the 260 vehicles chosen in the list').waitFor();
    const address = new URL(page.url());
    expect(address.searchParams.get('propose')).toMatch(/^kept:/);
    await page.reload();
    await page.getByText('For the 260 vehicles chosen in the list').waitFor();
    expect((await propose(page)).vehicles).toHaveLength(260);
    await page.close();
    const { page: other } = await visit(address.pathname + address.search);
    await other.getByText('chosen in another window').waitFor();
    expect(await other.getByRole('button', { name: 'Propose', exact: true }).isDisabled()).toBe(true);
    await other.close();
  });

  it('finds the booking of a row in the plan', async () => {
    const { page, complaints } = await visit('/?booking=open');
    const row = page.locator('[data-vehicle]').first();
    const vehicle = (await row.getAttribute('data-vehicle')) ?? '';
    await row.getByRole('link').press('Enter');
    await page.getByRole('complementary', { name: vehicle }).waitFor();
    expect(new URL(page.url()).pathname).toBe('/bay-plan');
    expect(complaints).toEqual([]);
    await page.close();
  });
});
