import { rmSync } from 'node:fs';
import ICAL from 'ical.js';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bookingList } from '#server/contract/bookings.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { type RunningProgram, runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { type DemoPerson, signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { findViolations } from './find-violations.ts';

/** The demo is simulated, delivered and assessed anew, on processors that other tests use too. */
const READY_MS = 400_000;
const patient = { timeout: 30_000 };

const folder = makeTemporaryFolder();
let demo: RunningProgram;
let url: string;
let browser: Browser;
let page: Page;
let planner: DemoPerson;
const complaints: string[] = [];

beforeAll(async () => {
  demo = runSlipdrift(['demo', '--port', '0'], { SLIPDRIFT_DATA: folder });
  browser = await launchBrowser();
  url = await waitForAddress(demo);
  planner = await signInToDemo(url, 'planner');
  page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
}, READY_MS);
afterAll(async () => {
  await browser?.close();
  await demo?.kill('SIGTERM');
  rmSync(folder, { recursive: true, force: true });
});

async function waitForAddress({ output, ended }: RunningProgram): Promise<string> {
  const over = ended.then((how) => expect.fail(`the demo ended with ${how}: ${output()}`));
  const ready = (async () => {
    for (;;) {
      const found = /Slipdrift is at (http:\S+)/.exec(output())?.[1];
      if (found !== undefined) return found;
      await new Promise((settle) => setTimeout(settle, 250));
    }
  })();
  return Promise.race([ready, over]);
}

const openBooking = async (vehicle: string) => {
  const answer = await planner.ask(`/api/bookings?vehicle=${vehicle}`);
  return bookingList.parse(await answer.json()).find(({ state }) => state === 'booked');
};

it('goes from the week over two vehicles and a plan to the calendar of the shop', async () => {
  await page.goto(`${url}/sign-in`);
  await page.getByRole('button', { name: 'Sign in as Perrin Aldous' }).click();
  await page.getByRole('link', { name: 'This week' }).click();
  const holds = page.getByRole('region', { name: /On hold without a day/ });
  await holds.waitFor(patient);
  expect(await findViolations(page)).toEqual([]);
  const units = await holds.locator('a[href^="/vehicles/"]').allTextContents();
  expect(units.length).toBeGreaterThan(2);

  for (const unit of units.slice(0, 2)) {
    await page.getByRole('link', { name: unit, exact: true }).first().click();
    await page.getByRole('heading', { level: 1, name: new RegExp(unit) }).waitFor(patient);
    await page.locator('[data-chart="ready"] svg').first().waitFor(patient);
    await page.getByRole('link', { name: 'This week' }).click();
    await holds.waitFor(patient);
  }

  await page.getByRole('link', { name: 'Bay plan', exact: true }).click();
  await page.getByRole('button', { name: 'Propose a plan' }).click();
  const form = page.getByRole('form', { name: 'Propose a plan' });
  // Tomorrow: whatever the hour of the test, the whole day is still ahead.
  const tomorrow = new Date(Date.now() + 86_400_000).toISOString().slice(0, 10);
  await form.getByLabel('From').fill(tomorrow);
  await form.getByRole('button', { name: 'Propose', exact: true }).click();
  const proposed = page.getByRole('region', { name: 'Proposed inspections' });
  await proposed.waitFor(patient);
  expect(await findViolations(page)).toEqual([]);
  const count = await proposed.getByRole('listitem').count();
  expect(count).toBeGreaterThan(5);

  const first = proposed.getByRole('listitem').first();
  const unit = (await first.getByRole('button').textContent()) ?? '';
  const before = await first.textContent();
  const card = page.getByRole('grid').locator(`[data-card="p${unit}"]`);
  await card.focus();
  await page.keyboard.press('m');
  await page.keyboard.press('ArrowRight');
  await page.keyboard.press('Enter');
  const moved = proposed.getByRole('listitem').filter({ hasText: unit });
  await expect.poll(() => moved.textContent(), patient).toContain('moved');
  expect(await moved.textContent()).not.toBe(before);

  await page.getByRole('button', { name: `Book all ${count}` }).click();
  const knowingly = page.getByRole('dialog').getByRole('button', { name: `Book ${count}` });
  await knowingly.click(patient);
  await expect.poll(() => openBooking(unit).then((found) => found?.day ?? null), patient).not.toBeNull();
  const booked = await openBooking(unit);
  expect(booked?.created_by).toBe('Perrin Aldous');

  await page.getByRole('button', { name: 'Calendar addresses' }).click();
  await page
    .getByLabel('Depot')
    .last()
    .selectOption(booked?.depot ?? '');
  await page.getByRole('button', { name: 'Make an address' }).click();
  const address = await page.getByRole('textbox', { name: /Calendar address of/ }).inputValue(patient);
  const feed = await fetch(address);
  expect(feed.headers.get('content-type')).toContain('text/calendar');
  const events = new ICAL.Component(ICAL.parse(await feed.text()))
    .getAllSubcomponents('vevent')
    .map((one) => new ICAL.Event(one));
  const own = events.filter(({ summary }) => summary.includes(unit));
  expect(own.map(({ startDate }) => startDate.toJSDate().toISOString())).toEqual([
    new Date(booked?.starts_at ?? '').toISOString(),
  ]);
  expect(complaints).toEqual([]);
}, 240_000);
