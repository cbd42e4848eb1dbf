import type { Browser, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { type Booking, bookingList } from '#server/contract/bookings.ts';
import {
  book,
  bookingNow,
  change,
  gradeVehicle,
  setUpBookableFleet,
  wearOn,
} from '#tests/helpers/bookable-fleet.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { signInAs } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { cardOf, marginOf } from './bay-plan-page.ts';
import { isFocused, press } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { openServed } from './open-served.ts';

let browser: Browser;
let app: TestApp;
const open: Page[] = [];
/** The processors are shared: a second is not always enough. */
const patient = { timeout: 20_000 };

beforeAll(async () => {
  await ensureScreens();
  browser = await launchBrowser();
  app = await startApp({}, bookingNow);
  await setUpBookableFleet(app);
  await gradeVehicle(app.client, 'N-2', 'book', { rank: 2 });
  await gradeVehicle(app.client, 'N-3', 'book', { rank: 3 });
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((page) => page.close()));
  await app.client`delete from bookings`;
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

async function visit(search = ''): Promise<Page> {
  const { page } = await openServed(browser, app, `/bay-plan${search}`, { as: 'planner', now: bookingNow });
  page.setDefaultTimeout(20_000);
  open.push(page);
  return page;
}

const cellOf = (page: Page, name: RegExp) => page.getByRole('gridcell', { name });

async function placeOf(unit: string): Promise<string | undefined> {
  const answer = await app.get(`/api/bookings?vehicle=${unit}&from=2026-11-01`);
  const found = bookingList.parse(await answer.json()).at(-1);
  return found && `${found.state} ${found.depot} ${found.bay} ${found.day}`;
}

async function moveByKeys(page: Page, booking: Booking, ...keys: string[]): Promise<void> {
  await cardOf(page, booking).focus();
  for (const key of ['m', ...keys, 'Enter']) await page.keyboard.press(key);
}

describe('moving a booking', () => {
  it('takes away what was said of an earlier try', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const page = await visit();
    await cardOf(page, booked).dragTo(cellOf(page, /Skarrowick, bay 1, Sat 28 Nov/));
    await page
      .getByRole('alert')
      .getByText(/N-2 stays where it was/)
      .waitFor();
    await moveByKeys(page, booked, 'ArrowRight');
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 1 2026-11-30');
    expect(await page.getByRole('alert').count()).toBe(0);
  });

  it('asks before it goes to another depot, and leaves it where it was without a yes', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const page = await visit();
    await cardOf(page, booked).dragTo(cellOf(page, /Harrowmead, bay 1, Mon 30 Nov/));
    const dialog = page.getByRole('dialog', { name: 'Move N-2 to another depot?' });
    await dialog.getByText('Somebody has to bring it to Harrowmead').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await press(dialog, 'Leave it at Skarrowick');
    await dialog.waitFor({ state: 'detached' });
    expect(await placeOf('N-2')).toBe('booked north 1 2026-11-27');
    await moveByKeys(page, booked, 'ArrowUp');
    await dialog.waitFor();
    expect(await placeOf('N-2')).toBe('booked north 1 2026-11-27');
    await press(dialog, 'Move it to Harrowmead');
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked south 1 2026-11-27');
    await expect.poll(() => isFocused(cardOf(page, booked)), patient).toBe(true);
  });
});

describe('the form that books a vehicle', () => {
  it('says that a unit is not known, whether a day is named or not', async () => {
    const page = await visit('?beside=book');
    const margin = marginOf(page);
    const unit = margin.getByLabel('Unit');
    await unit.fill('NOPE-1');
    await margin.getByText("No vehicle 'NOPE-1' is known.").waitFor();
    expect(await unit.getAttribute('aria-invalid')).toBe('true');
    expect(await margin.getByRole('button', { name: 'Let it wait' }).count()).toBe(0);
    await press(margin, 'Book');
    await margin.getByText("No vehicle 'NOPE-1' is known.").waitFor();
    expect(await margin.getByLabel('Why it waits for a day').count()).toBe(0);
  });

  it('finds a unit whatever the case of its letters', async () => {
    const page = await visit('?beside=book');
    const margin = marginOf(page);
    await margin.getByLabel('Unit').fill('n-2');
    await margin.getByText(/First room: Skarrowick/).waitFor();
    await press(margin, 'Book');
    await expect.poll(() => placeOf('N-2'), patient).toMatch(/^booked north/);
  });

  it('says at once that a unit is booked already, or retired', async () => {
    const booked = await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 1 });
    await app.post('/api/vehicles', { id: 'N-12', retired: true });
    const page = await visit('?beside=book');
    const margin = marginOf(page);
    await margin.getByLabel('Unit').fill('n-3');
    await margin.getByText('It has a booking already.').waitFor();
    expect(await margin.getByLabel('Unit').inputValue()).toBe('n-3');
    expect(await margin.getByRole('button', { name: /^(Book|Let it wait)$/ }).count()).toBe(0);
    await margin.getByLabel('Unit').fill('N-12');
    await margin.getByText('N-12 is retired').waitFor();
    expect(await margin.getByRole('button', { name: /^(Book|Let it wait)$/ }).count()).toBe(0);
    await margin.getByLabel('Unit').fill('N-3');
    await margin.getByRole('link', { name: 'Open that one' }).press('Enter');
    await expect.poll(() => new URL(page.url()).searchParams.get('open')).toBe(String(booked.id));
    await page.goto(`${app.url}/bay-plan?book=N-12`);
    await margin.getByText('N-12 is retired').waitFor();
    expect(await margin.getByText(/First room/).count()).toBe(0);
    await app.post('/api/vehicles', { id: 'N-12', retired: false });
  });

  it('offers the bays that there are, and says of another that it is not there', async () => {
    const page = await visit('?place=2026-12-02,9,south');
    const margin = marginOf(page);
    const bay = margin.getByLabel('Bay');
    await margin.getByText('There is no bay 9: Harrowmead has one on this day.').waitFor();
    expect(await bay.locator('option').allTextContents()).toEqual(['first free', 'bay 1', 'no bay 9']);
    await bay.selectOption('1');
    await margin.getByText('There is no bay 9').waitFor({ state: 'detached' });
  });
});

describe('a booking that is not among the days shown', () => {
  it('is shown, with what was typed and who cancelled it, where somebody did meanwhile', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const page = await visit(`?open=${booked.id}`);
    const note = page.getByRole('textbox', { name: 'Note for the shop' });
    await note.fill('Key at the office');
    const other = await signInAs(app, 'planner', { name: 'Ilse Varga' });
    await change(app, other.headers, booked, 'cancel', { version: booked.version, reason: 'Sold' });
    await press(page, 'Save the note');
    const margin = page.getByRole('complementary', { name: 'N-2' });
    await margin.getByText(/Ilse Varga cancelled this booking/).waitFor();
    await margin.getByText('This note was not saved').waitFor();
    expect(await note.inputValue()).toBe('Key at the office');
    expect(await margin.getByRole('button', { name: 'Cancel', exact: true }).count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
  });

  it('is shown where it lies on other days, with a way there', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2027-01-12', bay: 1 });
    const page = await visit(`?open=${booked.id}&depot=south`);
    const margin = page.getByRole('complementary', { name: 'N-2' });
    await margin.getByText('Tuesday 12 January 2027').waitFor();
    await press(margin, 'Show its days');
    await cardOf(page, booked).waitFor();
  });

  it('is told from one that there never was', async () => {
    const page = await visit('?open=99999');
    await marginOf(page).getByText('There is no booking 99999 here.').waitFor();
  });
});

it('names the whole place of what is proposed, however long the name of its depot is', async () => {
  await wearOn(app.client);
  await app.client`update depots set name = 'Wexenfirth (coast and islands)' where id = 'north'`;
  const page = await visit('?beside=plan');
  await press(marginOf(page), 'Propose');
  const place = marginOf(page)
    .getByRole('listitem')
    .filter({ hasText: 'N-2' })
    .getByText(/Wexenfirth \(coast and islands\), bay \d/);
  await place.waitFor();
  const room = await place.evaluate(({ scrollWidth, clientWidth }) => scrollWidth - clientWidth);
  expect(room).toBe(0);
});
