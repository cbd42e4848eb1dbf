import { rmSync } from 'node:fs';
import ICAL from 'ical.js';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { bookingList } from '#server/contract/bookings.ts';
import { fleetLivesReply } from '#server/contract/lives.ts';
import { replayList } from '#server/contract/replay.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { type RunningProgram, runSlipdrift } from '#tests/helpers/run-slipdrift.ts';
import { type DemoPerson, signInToDemo } from '#tests/helpers/sign-in-demo.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';
import { recordsWords } from '#web/screens/lives/lives-words.ts';
import { findViolations } from './find-violations.ts';

/** The demo is simulated, delivered and assessed anew, on processors that other tests use too. */
const READY_MS = 400_000;
const patient = { timeout: 30_000 };

const folder = makeTemporaryFolder();
let demo: RunningProgram;
let url: string;
let browser: Browser;
let planner: DemoPerson;
const complaints: string[] = [];

beforeAll(async () => {
  demo = runSlipdrift(['demo', '--port', '0'], { SLIPDRIFT_DATA: folder });
  browser = await launchBrowser();
  url = await waitForAddress(demo);
  planner = await signInToDemo(url, 'planner');
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

/** A page that somebody has signed in on by the demo's own button. */
async function openAs(name: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: 1280, height: 900 } });
  const page = await context.newPage();
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.goto(`${url}/sign-in`);
  await page.getByRole('button', { name: `Sign in as ${name}` }).click();
  return page;
}

const openBooking = async (vehicle: string) => {
  const answer = await planner.ask(`/api/bookings?vehicle=${vehicle}`);
  return bookingList.parse(await answer.json()).find(({ state }) => state === 'booked');
};

it('goes from the week over two vehicles and a plan to the calendar of the shop', async () => {
  const page = await openAs('Perrin Aldous');
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
  await form.getByLabel('From', { exact: true }).fill(tomorrow);
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

it('compares two groups of converters, and runs a month again', async () => {
  const analyst = await signInToDemo(url, 'analyst');
  const page = await openAs('Anke Lorrimer');
  await page.getByRole('link', { name: 'Analysis', exact: true }).click();
  await page.getByRole('heading', { level: 1, name: 'Lives' }).waitFor(patient);
  await page.getByLabel('Compared by').selectOption('source');
  await page
    .getByText(/^Lives count/)
    .first()
    .click();
  await page.getByRole('radio', { name: recordsWords.fitting.label }).check();
  await expect.poll(() => new URL(page.url()).search, patient).toContain('records=fitting');
  const answer = await analyst.ask('/api/analysis/lives?group_by=source&records=fitting');
  const lives = fleetLivesReply.parse(await answer.json());
  expect(lives.groups.map(({ name }) => name).toSorted()).toEqual(
    expect.arrayContaining(['original', 'rebuilt']),
  );
  const rows = page
    .locator('section')
    .filter({ has: page.getByRole('heading', { name: 'When a tenth and a half have failed' }) })
    .getByRole('row');
  await expect.poll(() => rows.count(), patient).toBe(lives.groups.length + 1);
  for (const [i, { n, events }] of lives.groups.entries()) {
    const cells = rows.nth(i + 1).getByRole('cell');
    expect((await cells.allTextContents()).slice(0, 2)).toEqual([`${n}`, `${events}`]);
  }
  expect(lives.logrank?.p).toBeLessThan(1);
  await page.locator('[data-chart="ready"] svg').first().waitFor(patient);
  expect(await findViolations(page)).toEqual([]);

  await page.getByRole('link', { name: 'Replay', exact: true }).click();
  const form = page.getByRole('form', { name: 'A new replay' });
  await form.waitFor(patient);
  const day = (before: number) => new Date(Date.now() - before * 86_400_000).toISOString().slice(0, 10);
  await form.getByLabel('From', { exact: true }).fill(day(45));
  await form.getByLabel('To, included').fill(day(16));
  await form
    .getByText(/^Platforms/)
    .first()
    .click();
  await form.getByRole('checkbox').first().check();
  await form.getByRole('button', { name: 'Run this period again' }).click();
  await page
    .getByText(/^The list would have (found|missed)|^Nothing came in this period/)
    .waitFor({ timeout: 120_000 });
  const { replays } = replayList.parse(await (await analyst.ask('/api/analysis/replays')).json());
  const [own] = replays;
  expect(own).toMatchObject({
    state: 'done',
    asked_by: 'Anke Lorrimer',
    request: { from: day(45), to: day(16) },
  });
  expect(new URL(page.url()).searchParams.get('id')).toBe(`${own?.id}`);
  const scores = page.getByRole('table').filter({ hasText: 'slip above a level' }).first();
  const listRow = scores.getByRole('row').filter({ hasText: 'the list' });
  expect(await listRow.getByRole('cell').first().textContent()).toBe(`${own?.score?.asked}`);
  await expect.poll(() => page.locator('[data-chart="ready"] svg').count(), patient).toBeGreaterThan(2);
  expect(await findViolations(page)).toEqual([]);
  expect(complaints).toEqual([]);
}, 240_000);
