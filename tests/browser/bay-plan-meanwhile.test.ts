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
import { holdBack, openServed } from './open-served.ts';

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
  await gradeVehicle(app.client, 'N-1', 'hold');
  await gradeVehicle(app.client, 'N-2', 'book', { rank: 2 });
  await wearOn(app.client);
});
afterEach(async () => {
  await Promise.all(open.splice(0).map((page) => page.close()));
  await app.client`delete from bookings`;
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

async function visit(path: string, timezoneId = 'UTC'): Promise<Page> {
  const { page } = await openServed(browser, app, path, { as: 'planner', now: bookingNow, timezoneId });
  open.push(page);
  return page;
}

const spoken = (page: Page) => page.locator('main p[role="status"].only-spoken').textContent();
const searchOf = (page: Page) => new URL(page.url()).searchParams;

/** Takes a card up and puts it down a day later, by keys. */
async function moveOn(page: Page, booking: Booking): Promise<void> {
  await cardOf(page, booking).focus();
  for (const key of ['m', 'ArrowRight', 'Enter']) await page.keyboard.press(key);
}

async function stored(unit: string): Promise<string | undefined> {
  const answer = await app.get(`/api/bookings?vehicle=${unit}&from=2026-11-01`);
  const found = bookingList.parse(await answer.json()).at(-1);
  return found && `${found.state} ${found.day} ${found.hours} h`;
}

describe('a booking that somebody else moves meanwhile', () => {
  it('is not thrown back by a form that was opened before, which then goes on from the newer place', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const beside = await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 2 });
    const page = await visit(`/bay-plan?open=${booked.id}`);
    const margin = marginOf(page);
    await press(margin, 'Move');
    const form = margin.getByRole('form', { name: 'Move N-2' });
    const other = await signInAs(app, 'planner', { name: 'Ilse Varga' });
    await change(app, other.headers, booked, 'move', { version: booked.version, day: '2026-12-02' });
    // Any own change has the plan asked again.
    await moveOn(page, beside);
    await margin.getByText('Wednesday 2 December 2026').waitFor(patient);
    await form.getByLabel('Length').fill('4');
    await press(form, 'Move');
    await form
      .getByRole('alert')
      .getByText(/Ilse Varga/)
      .waitFor(patient);
    expect(await stored('N-2')).toBe('booked 2026-12-02 3 h');
    await expect.poll(() => form.getByLabel('Day', { exact: true }).inputValue()).toBe('2026-12-02');
    await press(form, 'Move');
    await expect.poll(() => stored('N-2'), patient).toBe('booked 2026-12-02 4 h');
  });

  it('keeps what is typed into its note while the note is saved, and the focus with it', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1, note: 'old' });
    const page = await visit(`/bay-plan?open=${booked.id}`);
    const note = page.getByRole('textbox', { name: 'Note for the shop' });
    const goOn = await holdBack(page, '**/api/bookings/*');
    await note.fill('Gate 2');
    await press(page, 'Save the note');
    await note.press('End');
    await page.keyboard.type(', key at the office');
    const told = page.waitForResponse('**/api/bay-plan?*');
    goOn();
    await told;
    await page.waitForLoadState('networkidle');
    expect(await note.inputValue()).toBe('Gate 2, key at the office');
    expect(await isFocused(note)).toBe(true);
    await press(page, 'Save the note');
    await page.getByRole('button', { name: 'Save the note' }).waitFor({ state: 'detached' });
    expect(await isFocused(note)).toBe(true);
  });

  it('stays put while another one is still to be sent', async () => {
    const first = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const second = await book(app, { vehicle: 'N-3', day: '2026-11-27', bay: 2 });
    const page = await visit('/bay-plan');
    await cardOf(page, first).waitFor(patient);
    await page.route('**/api/bookings/*', async (route) => {
      await new Promise((settle) => setTimeout(settle, 600));
      await route.continue();
    });
    await page.evaluate((id) => {
      const days: string[] = [];
      Object.assign(window, { days });
      const look = () => {
        const card = document.querySelector(`[role="grid"] [data-card="b${id}"]`);
        const day = card?.closest<HTMLElement>('[data-day]')?.dataset.day;
        if (day !== undefined && day !== days.at(-1)) days.push(day);
        requestAnimationFrame(look);
      };
      look();
    }, second.id);
    await moveOn(page, first);
    await moveOn(page, second);
    await expect.poll(() => stored('N-3'), patient).toBe('booked 2026-11-30 3 h');
    await page.waitForLoadState('networkidle');
    const days = await page.evaluate(() => (window as unknown as { days: string[] }).days);
    expect(days).toHaveLength(2);
  });
});

describe('what is open beside the plan', () => {
  it('closes with a cancelled booking, says so, and loses no focus', async () => {
    const booked = await book(app, { vehicle: 'N-3', day: '2026-11-27', bay: 1 });
    const page = await visit('/bay-plan');
    await cardOf(page, booked).press('Enter');
    const margin = marginOf(page);
    await press(margin, 'Cancel');
    await margin.getByLabel('Why it is cancelled').fill('Sold');
    await press(margin, 'Cancel this booking');
    await margin.waitFor({ state: 'detached' });
    expect(searchOf(page).get('open')).toBeNull();
    expect(await spoken(page)).toBe('N-3: cancelled.');
    expect(await isFocused(page.locator('body'))).toBe(false);
  });

  it('closes with a booking that is done, wherever it lies', async () => {
    const booked = await book(app, { vehicle: 'N-3', day: '2026-11-27', bay: 1 });
    await app.client`
      update bookings set day = '2026-11-17', starts_at = '2026-11-17T06:00Z', ends_at = '2026-11-17T09:00Z'`;
    const page = await visit(`/bay-plan?open=${booked.id}`);
    const margin = marginOf(page);
    await press(margin, 'Done');
    await press(margin.getByRole('form', { name: 'Done N-3' }), 'Done');
    await margin.waitFor({ state: 'detached' });
    expect(await spoken(page)).toBe('N-3: done.');
  });

  it('follows a booking to days that were not shown', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const page = await visit(`/bay-plan?open=${booked.id}`);
    const margin = page.getByRole('complementary', { name: 'N-2' });
    await press(margin, 'Move');
    const form = margin.getByRole('form', { name: 'Move N-2' });
    await form.getByLabel('Day', { exact: true }).fill('2027-01-12');
    await press(form, 'Move');
    await margin.getByText('Tuesday 12 January 2027').waitFor(patient);
    expect(searchOf(page).get('from')).toBe('2027-01-12');
    expect(await spoken(page)).toBe('N-2 moved.');
  });

  it('has the focus once the form of a move is gone, and gives it back to its own card', async () => {
    const first = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const second = await book(app, { vehicle: 'N-3', day: '2026-12-02', bay: 2 });
    const page = await visit('/bay-plan');
    await cardOf(page, first).press('Enter');
    await page.getByRole('complementary', { name: 'N-2' }).waitFor();
    await cardOf(page, second).press('Enter');
    const margin = page.getByRole('complementary', { name: 'N-3' });
    const head = margin.getByRole('heading', { name: 'N-3', exact: true });
    await expect.poll(() => isFocused(head)).toBe(true);
    await press(margin, 'Move');
    const form = margin.getByRole('form', { name: 'Move N-3' });
    await form.getByLabel('Length').fill('4');
    await press(form, 'Move');
    await form.waitFor({ state: 'detached' });
    await expect.poll(() => isFocused(head)).toBe(true);
    await page.keyboard.press('Escape');
    await expect.poll(() => isFocused(cardOf(page, second))).toBe(true);
  });

  it('tells the state of a vehicle once it is known, and how it went where it cannot be', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    await app.post('/api/vehicles', {
      id: 'N-2',
      unavailable: [{ from: '2026-12-01', to: '2026-12-03', note: 'rally' }],
    });
    const page = await visit('/account');
    const goOn = await holdBack(page, '**/api/vehicles/N-2?*');
    await page.goto(`${app.url}/bay-plan?open=${booked.id}`);
    const state = page.getByRole('region', { name: 'State of N-2' });
    await state.getByText('Loading its state').waitFor(patient);
    expect(await state.getAttribute('aria-busy')).toBe('true');
    goOn();
    await state.getByText('Cannot be taken on 1 to 3 Dec 2026: rally').waitFor(patient);
    expect(await state.locator('p').first().textContent()).toMatch(/^book\s*within the horizon$/);
    await page.unroute('**/api/vehicles/N-2?*');
    await page.route('**/api/vehicles/N-2?*', (route) => route.fulfill({ status: 500, json: {} }));
    await page.reload();
    await state.getByRole('button', { name: 'Try again' }).waitFor(patient);
    expect(await state.getAttribute('aria-busy')).toBe('false');
    expect(await state.getByText('too little to say').count()).toBe(0);
    await app.post('/api/vehicles', { id: 'N-2', unavailable: [] });
  });
});

describe('a proposal', () => {
  async function propose() {
    const page = await visit('/bay-plan?beside=plan');
    const margin = marginOf(page);
    await press(margin, 'Propose');
    await margin.getByRole('button', { name: 'Book all 2' }).waitFor(patient);
    return { page, margin };
  }

  it('that is booked says how many were, and leaves the focus at its head', async () => {
    const { page, margin } = await propose();
    await press(margin, 'Book all 2');
    await margin.getByText('All of it is booked.').waitFor(patient);
    await expect.poll(() => spoken(page)).toBe('2 booked.');
    await expect.poll(() => isFocused(margin.getByRole('heading', { level: 2 }).first())).toBe(true);
  });

  it('that breaks off half-way keeps what is left to book', async () => {
    await book(app, { vehicle: 'N-2', reason: 'No driver' });
    const { page, margin } = await propose();
    await page.route('**/api/bookings', (route) => route.abort());
    await press(margin, 'Book all 2');
    await margin.getByRole('alert').waitFor(patient);
    expect(await stored('N-2')).toMatch(/^booked/);
    expect(await page.getByRole('grid').locator('[data-card]', { hasText: 'N-2' }).count()).toBe(1);
    await page.unroute('**/api/bookings');
    await press(margin, 'Book all 1');
    await margin.getByText('All of it is booked.').waitFor(patient);
    expect(await stored('N-1')).toMatch(/^booked/);
  });

  it('takes no length that a booking could not have', async () => {
    const { page, margin } = await propose();
    await margin.getByRole('button', { name: 'N-2', exact: true }).press('Enter');
    const form = page.getByRole('form', { name: 'Move the proposal for N-2' });
    for (const [length, words] of [
      ['-3', 'Not below 0.25 h.'],
      ['25', 'Not above 24 h.'],
      ['4.1', 'In steps of 0.25 h.'],
    ] as const) {
      await form.getByLabel('Length').fill(length);
      await press(form, 'Move the proposal');
      await form.getByText(words).waitFor();
    }
    expect(await margin.getByText(/^Proposed for .*\(3\sh\)/).count()).toBe(1);
  });
});

it('has the digest told anew of a hold that has got its day', async () => {
  const page = await visit('/digest');
  const holds = page.getByRole('region', { name: /On hold without a day/ });
  await holds.getByText('N-1').waitFor(patient);
  await page.getByRole('link', { name: 'Bay plan', exact: true }).press('Enter');
  await press(page, 'Find a day for N-1');
  // Enabled once the vehicle is known, and so its first free day.
  await page
    .getByRole('complementary', { name: 'Book a vehicle' })
    .getByRole('button', { name: 'Book', exact: true })
    .click();
  await page.getByRole('complementary', { name: 'N-1' }).waitFor(patient);
  await page
    .getByRole('navigation', { name: 'Screens' })
    .getByRole('link', { name: 'This week' })
    .press('Enter');
  await holds.getByText('Every vehicle on hold has a day.').waitFor(patient);
});

describe('for a reader in another zone', () => {
  it('opens the day of the depot, as of its clocks', async () => {
    // Late on 25 November there, 10:00 on 26 November at the depot.
    const page = await visit('/bay-plan?view=day&depot=north', 'Pacific/Pago_Pago');
    const sheet = page.getByRole('article');
    await sheet.getByText('Thursday 26 November 2026').waitFor(patient);
    await sheet.getByText(/^As of 26 Nov 2026, 10:\d\d/).waitFor();
  });

  it('begins with the Monday of the depot', async () => {
    const { page } = await openServed(browser, app, '/bay-plan', {
      as: 'planner',
      // Sunday evening there, Monday at the depot; the server's own clock is of no matter here.
      now: new Date('2026-11-30T06:00:00Z'),
      timezoneId: 'Pacific/Pago_Pago',
    });
    open.push(page);
    await page.getByText('30 Nov to 13 Dec 2026').waitFor(patient);
  });
});
