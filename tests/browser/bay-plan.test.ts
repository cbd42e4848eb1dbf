import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, afterEach, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { type Booking, bookingList } from '#server/contract/bookings.ts';
import type { Role } from '#server/contract/words.ts';
import {
  book,
  bookingNow,
  change,
  gradeVehicle,
  setUpBookableFleet,
  wearOn,
} from '#tests/helpers/bookable-fleet.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { signInAs, signInPage } from '#tests/helpers/sign-in.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { cardOf } from './bay-plan-page.ts';
import { isFocused } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { newPage } from './new-page.ts';
import { expectToFit } from './open-access.ts';

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

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  as?: Role;
  hasTouch?: boolean;
}

/** The bay plan of the served screens; what the page complains of is collected. */
async function visit(search = '', options: Options = {}) {
  const { width = 1280, colorScheme = 'light', as = 'planner', hasTouch = width < 500 } = options;
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch,
  });
  open.push(page);
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime(bookingNow);
  await signInPage(page, app, as);
  await page.goto(`${app.url}/bay-plan${search}`);
  return { page, complaints };
}

const cellOf = (page: Page, name: RegExp) => page.getByRole('gridcell', { name });
const searchOf = (page: Page) => new URL(page.url()).searchParams;
const spoken = (page: Page) => page.locator('main p[role="status"]').textContent();

async function stored(unit: string): Promise<Booking | undefined> {
  const answer = await app.get(`/api/bookings?vehicle=${unit}&from=2026-11-01`);
  return bookingList.parse(await answer.json()).at(-1);
}

const placeOf = async (unit: string) => {
  const found = await stored(unit);
  return found && `${found.state} ${found.depot} ${found.bay} ${found.day} ${found.from}`;
};

describe('moving a booking', () => {
  it('goes by keys through bays and days, skips closed ones, and says where it is', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page, complaints } = await visit();
    await cardOf(page, booked).waitFor();
    // One stop of the Tab key leads into the grid.
    await page.getByLabel('Depot', { exact: true }).focus();
    for (let i = 0; i < 20 && !(await isFocused(cardOf(page, booked))); i++) await page.keyboard.press('Tab');
    expect(await isFocused(cardOf(page, booked))).toBe(true);
    await page.keyboard.press('m');
    await expect.poll(() => spoken(page), patient).toContain('bay 1, Fri 27 Nov: from 07:00');
    await page.keyboard.press('ArrowDown');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => spoken(page), patient).toContain('bay 2, Mon 30 Nov: from 07:00');
    await page.keyboard.press('Enter');
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 2 2026-11-30 07:00');
    await expect.poll(() => isFocused(cardOf(page, booked)), patient).toBe(true);
    expect(complaints).toEqual([]);
  });

  it('gives up at Escape and leaves the booking where it was', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page } = await visit();
    await cardOf(page, booked).focus();
    await page.keyboard.press('m');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Escape');
    await expect.poll(() => spoken(page), patient).toContain('N-2 stays where it was');
    expect(await isFocused(cardOf(page, booked))).toBe(true);
    expect(await stored('N-2')).toMatchObject({ day: '2026-11-27', version: booked.version });
  });

  it('is dragged by mouse to another day, behind what is there, and out of the tray of those put off', async () => {
    const first = await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 1 });
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const waits = await book(app, { vehicle: 'N-4', reason: 'No driver' });
    const { page, complaints } = await visit();
    await cardOf(page, first).waitFor();
    await cardOf(page, booked).dragTo(cellOf(page, /Skarrowick, bay 1, Mon 30 Nov/));
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 1 2026-11-30 10:00');
    const tray = page.getByRole('region', { name: /1 put off/ });
    await tray.locator(`[data-card="b${waits.id}"]`).dragTo(cellOf(page, /Skarrowick, bay 2, Tue 1 Dec/));
    await expect.poll(() => placeOf('N-4'), patient).toBe('booked north 2 2026-12-01 07:00');
    await tray.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
  });

  it('is held by a finger and put down where the finger leaves it', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page, complaints } = await visit('', { width: 1024, hasTouch: true });
    await cardOf(page, booked).waitFor();
    const middleOf = async (locator: Locator) => {
      const box = await locator.boundingBox();
      if (box === null) throw new Error('nothing to touch');
      return { x: box.x + box.width / 2, y: box.y + box.height / 2 };
    };
    const from = await middleOf(cardOf(page, booked));
    const to = await middleOf(cellOf(page, /Skarrowick, bay 2, Mon 30 Nov/));
    const hand = await page.context().newCDPSession(page);
    const touch = (type: 'touchStart' | 'touchMove' | 'touchEnd', points: { x: number; y: number }[]) =>
      hand.send('Input.dispatchTouchEvent', { type, touchPoints: points });
    await touch('touchStart', [from]);
    await expect.poll(() => page.getByText('from 07:00').count(), patient).toBe(1);
    await touch('touchMove', [{ x: (from.x + to.x) / 2, y: from.y }]);
    await touch('touchMove', [to]);
    await touch('touchEnd', []);
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 2 2026-11-30 07:00');
    expect(searchOf(page).get('open')).toBeNull();
    expect(complaints).toEqual([]);
  });

  it('says why nothing fits in a full bay, before the server is asked', async () => {
    await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 1, hours: 8 });
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page } = await visit();
    await cardOf(page, booked).dragTo(cellOf(page, /Skarrowick, bay 1, Mon 30 Nov/));
    await page
      .getByRole('alert')
      .getByText(/no 3\sh free/)
      .waitFor();
    expect(await placeOf('N-2')).toBe('booked north 1 2026-11-27 07:00');
  });

  it('puts a booking back where somebody else was faster, and says who', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page } = await visit();
    await cardOf(page, booked).waitFor();
    const other = await signInAs(app, 'planner', { name: 'Ilse Varga' });
    await change(app, other.headers, booked, 'move', { version: booked.version, day: '2026-12-02' });
    await cardOf(page, booked).dragTo(cellOf(page, /Skarrowick, bay 2, Mon 30 Nov/));
    await page
      .getByRole('alert')
      .getByText(/N-2 was put back.*Ilse Varga/s)
      .waitFor();
    await expect.poll(() => cardOf(page, booked).textContent(), patient).toContain('Wed 2 Dec, 07:00');
    expect(await placeOf('N-2')).toBe('booked north 1 2026-12-02 07:00');
  });
});

describe('the panel of a booking', () => {
  it('moves it by form, and shows what was done with it', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1, note: 'Stands at gate 2' });
    const { page, complaints } = await visit();
    await cardOf(page, booked).click();
    await expect.poll(() => searchOf(page).get('open'), patient).toBe(String(booked.id));
    const panel = page.getByRole('complementary', { name: 'N-2' });
    expect(await panel.getByRole('textbox', { name: 'Note for the shop' }).inputValue()).toBe(
      'Stands at gate 2',
    );
    await panel.getByRole('button', { name: 'Move', exact: true }).click();
    const form = panel.getByRole('form', { name: 'Move N-2' });
    await form.getByLabel('Day', { exact: true }).fill('2026-12-03');
    await form.getByLabel('From').fill('10:30');
    await form.getByLabel('Reason').fill('Parts come on Wednesday');
    await form.getByRole('button', { name: 'Move' }).click();
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 1 2026-12-03 10:30');
    await panel.getByText(/moved from .*Parts come on Wednesday/).waitFor();
    expect(complaints).toEqual([]);
  });

  it('cancels only with a reason, and leaves a vehicle on hold without a day only knowingly', async () => {
    const booked = await book(app, { vehicle: 'N-1', day: '2026-11-27', bay: 1 });
    const { page, complaints } = await visit(`?open=${booked.id}`);
    const panel = page.getByRole('complementary', { name: 'N-1' });
    await panel.getByRole('button', { name: 'Cancel', exact: true }).click();
    const yes = panel.getByRole('button', { name: 'Cancel this booking' });
    await yes.click();
    await panel.getByText('Say why, in a few words.').waitFor();
    await panel.getByLabel('Why it is cancelled').fill('Sold');
    await yes.click();
    await panel.getByRole('alert').waitFor();
    expect((await stored('N-1'))?.state).toBe('booked');
    await panel.getByLabel(/Leave N-1 on hold without a day/).check();
    await yes.click();
    await page
      .getByRole('region', { name: /1 vehicle on hold has no day/ })
      .getByText('N-1')
      .waitFor();
    await panel.waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
  });

  it('puts off into the tray with the reason, and finds a day again', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page } = await visit(`?open=${booked.id}`);
    const panel = page.getByRole('complementary', { name: 'N-2' });
    await panel.getByRole('button', { name: 'Put off', exact: true }).click();
    await panel.getByLabel('Why it is put off').fill('Driver is ill');
    await panel.getByRole('form').getByRole('button', { name: 'Put off' }).click();
    await page
      .getByRole('region', { name: /1 put off/ })
      .getByText('Driver is ill')
      .waitFor();
    await panel.getByRole('button', { name: 'Find a day' }).click();
    await panel.getByLabel('Day', { exact: true }).fill('2026-12-01');
    await panel.getByRole('button', { name: 'Book this day' }).click();
    await expect.poll(() => placeOf('N-2'), patient).toBe('booked north 1 2026-12-01 07:00');
  });
});

describe('booking by hand', () => {
  it('begins at an empty place of the grid', async () => {
    const { page, complaints } = await visit();
    await cellOf(page, /Harrowmead, bay 1, Tue 1 Dec/).click();
    const panel = page.getByRole('complementary', { name: 'Book a vehicle' });
    await panel.getByLabel('Unit').fill('S-3');
    await panel.getByRole('textbox', { name: 'Note for the shop' }).fill('Shudders when warm');
    await panel.getByRole('button', { name: 'Book', exact: true }).click();
    await expect.poll(() => placeOf('S-3'), patient).toBe('booked south 1 2026-12-01 07:00');
    await page.getByRole('complementary', { name: 'S-3' }).waitFor();
    expect(complaints).toEqual([]);
  });

  it('finds a day for a vehicle on hold from the top of the screen', async () => {
    await book(app, { vehicle: 'N-3', day: '2026-11-26', hours: 5.75, bay: 1 });
    await book(app, { vehicle: 'N-4', day: '2026-11-26', hours: 5.75, bay: 2 });
    const { page } = await visit();
    await page.getByRole('button', { name: 'Find a day for N-1' }).click();
    const panel = page.getByRole('complementary', { name: 'Book a vehicle' });
    await panel.getByText('First room: Skarrowick, bay 1, Fri 27 Nov, from 07:00.').waitFor();
    await panel.getByRole('button', { name: 'Book', exact: true }).click();
    await expect.poll(() => placeOf('N-1'), patient).toBe('booked north 1 2026-11-27 07:00');
    await page.getByText(/on hold has no day/).waitFor({ state: 'detached' });
  });

  it('tells what the server refuses at the field that it is about', async () => {
    const { page } = await visit('?beside=book');
    const panel = page.getByRole('complementary', { name: 'Book a vehicle' });
    await panel.getByLabel('Unit').fill('X-404');
    await panel.getByLabel('Depot').selectOption('south');
    await panel.getByLabel('Day', { exact: true }).fill('2026-12-01');
    await panel.getByRole('button', { name: 'Book', exact: true }).click();
    await expect.poll(() => panel.getByLabel('Unit').getAttribute('aria-invalid'), patient).toBe('true');
  });
});

describe('a proposal', () => {
  const draftOf = (page: Page, unit: string) => page.getByRole('grid').locator(`[data-card="p${unit}"]`);

  async function propose(page: Page) {
    const panel = page.getByRole('complementary', { name: /^Propos/ });
    await panel.getByRole('button', { name: 'Propose', exact: true }).click();
    await draftOf(page, 'N-1').waitFor(patient);
    return page.getByRole('complementary', { name: 'Proposal' });
  }

  it('is drawn into the grid, moved by keys before it is accepted, and booked as it then stands', async () => {
    const { page, complaints } = await visit('?beside=plan');
    const panel = await propose(page);
    await panel.getByText(/Proved to be the best plan/).waitFor();
    expect(await panel.getByText('Nobody who asks for a day is left out.').count()).toBe(1);
    const before = await draftOf(page, 'N-2').locator('xpath=ancestor::*[@role="gridcell"]').textContent();
    await draftOf(page, 'N-2').focus();
    await page.keyboard.press('m');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('ArrowRight');
    await page.keyboard.press('Enter');
    const cell = draftOf(page, 'N-2').locator('xpath=ancestor::*[@role="gridcell"]');
    await expect.poll(() => cell.textContent(), patient).not.toBe(before);
    await panel.getByText(/Skarrowick, bay \d, moved/).waitFor();
    expect(await findViolations(page)).toEqual([]);
    const [, from, bay] =
      /Mon 30 Nov, (\d\d:\d\d) to .* bay (\d)/.exec((await cell.textContent()) ?? '') ?? [];
    await panel.getByRole('button', { name: 'Book all 2' }).click();
    await expect.poll(() => placeOf('N-2'), patient).toBe(`booked north ${bay} 2026-11-30 ${from}`);
    expect((await stored('N-1'))?.state).toBe('booked');
    await panel.getByText('All of it is booked.').waitFor();
    await page.getByText(/on hold has no day/).waitFor({ state: 'detached' });
    expect(complaints).toEqual([]);
  });

  it('says which vehicle on hold stays without a day before the rest is booked', async () => {
    const { page } = await visit('?beside=plan');
    const panel = await propose(page);
    await panel.getByLabel('Book N-1').click();
    await panel.getByRole('button', { name: 'Book 1 of 2' }).click();
    const dialog = page.getByRole('dialog', { name: '1 vehicle on hold stays without a day' });
    await dialog.getByText(/N-1 must not be dispatched/).waitFor();
    await dialog.getByRole('button', { name: 'Book 1', exact: true }).click();
    await expect.poll(async () => (await stored('N-2'))?.state, patient).toBe('booked');
    expect(await stored('N-1')).toBeUndefined();
  });

  it('keeps what the server refuses, with the reason, and gives a booking that waits its day', async () => {
    await book(app, { vehicle: 'N-2', reason: 'No driver' });
    const { page } = await visit('?beside=plan');
    const panel = await propose(page);
    const place = await draftOf(page, 'N-1').textContent();
    const [, day = '', from = '', bay = ''] = /(\d+) Nov, (\d\d:\d\d) to .*bay (\d)/.exec(place ?? '') ?? [];
    await book(app, { vehicle: 'N-5', day: `2026-11-${day}`, from, bay: Number(bay) });
    await panel.getByRole('button', { name: 'Book all 2' }).click();
    await panel
      .getByRole('alert')
      .getByText(/N-1: .*N-5/)
      .waitFor();
    await draftOf(page, 'N-1').waitFor();
    await expect.poll(async () => (await stored('N-2'))?.state, patient).toBe('booked');
  });
});

describe('the day of a depot', () => {
  it('prints on one page with reasons, notes and the safety line, black on white', async () => {
    await app.post('/api/depots', [{ id: 'wide', name: 'Wide yard', bays: 4, time_zone: 'Europe/Vienna' }]);
    for (let i = 0; i < 12; i++)
      await book(app, {
        vehicle: `N-${i + 1}`,
        depot: 'wide',
        day: '2026-11-27',
        bay: 1 + (i % 4),
        ...(i % 2
          ? { note: 'Stands at gate 2, key at the office; the driver says that it shudders when warm.' }
          : {}),
      });
    const { page, complaints } = await visit('?view=day&depot=wide&day=2026-11-27', { colorScheme: 'dark' });
    await page.locator('article[data-ready]').waitFor();
    const sheet = page.getByRole('article');
    for (const words of [
      'Short type',
      'Hold: do not dispatch before inspection.',
      'Stands at gate 2',
      'licensed technicians',
    ])
      expect(await sheet.textContent()).toContain(words);
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    const tones = await sheet.evaluate((element) => {
      const { color, backgroundColor } = getComputedStyle(element);
      return { color, backgroundColor };
    });
    expect(tones).toEqual({ color: 'rgb(0, 0, 0)', backgroundColor: 'rgb(255, 255, 255)' });
    expect(await page.getByRole('button', { name: 'Print' }).isVisible()).toBe(false);
    const pdf = await page.pdf({ preferCSSPageSize: true, printBackground: true });
    expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1);
    expect(complaints).toEqual([]);
  });
});

describe('the calendar address of a depot', () => {
  it('is made, shown once, renewed and ended', async () => {
    const { page, complaints } = await visit('?beside=calendars&depot=north');
    const panel = page.getByRole('complementary', { name: 'Calendar addresses' });
    await panel.getByRole('button', { name: 'Make an address' }).click();
    const line = panel.getByLabel('Calendar address of Skarrowick');
    const field = panel.locator('input[readonly]');
    await field.waitFor();
    const first = await field.inputValue();
    expect((await fetch(first)).headers.get('content-type')).toContain('text/calendar');
    await panel.getByRole('button', { name: 'Renew' }).click();
    await page.getByRole('button', { name: 'Make a new one' }).click();
    await expect.poll(() => field.inputValue(), patient).not.toBe(first);
    expect((await fetch(first)).status).toBe(404);
    await panel.getByRole('button', { name: 'End' }).click();
    await page.getByRole('button', { name: 'End it' }).click();
    await panel.getByText('Skarrowick has no address.').waitFor();
    expect(await line.count()).toBeGreaterThan(0);
    expect(complaints).toEqual([]);
  });
});

describe('who only looks', () => {
  it('sees the plan and can change nothing', async () => {
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const { page, complaints } = await visit('', { as: 'analyst' });
    await cardOf(page, booked).waitFor();
    expect(await page.getByRole('button', { name: 'Propose a plan' }).count()).toBe(0);
    expect(await cardOf(page, booked).getAttribute('draggable')).not.toBe('true');
    await cardOf(page, booked).click();
    const panel = page.getByRole('complementary', { name: 'N-2' });
    await panel.waitFor();
    const buttons = await panel.getByRole('button').allTextContents();
    expect(buttons.filter((words) => !words.startsWith('Show all'))).toEqual(['Close']);
    expect(complaints).toEqual([]);
  });

  it('is told that the plan is not for a shop', async () => {
    const { page } = await visit('', { as: 'shop' });
    await page.getByText(/The bay plan is for planner, analyst and admin/).waitFor();
  });
});

it.each([1280, 390])(
  'passes WCAG 2.2 AA at %i px on either ground, and nothing is cut off',
  async (width) => {
    await book(app, { vehicle: 'N-3', day: '2026-11-30', bay: 1 });
    await book(app, { vehicle: 'N-4', reason: 'No driver' });
    const booked = await book(app, { vehicle: 'N-2', day: '2026-11-27', bay: 1 });
    const searches = [
      `?open=${booked.id}`,
      '?beside=plan',
      '?book=N-1',
      '?beside=calendars',
      '?view=day&depot=north&day=2026-11-27',
    ];
    for (const search of searches) {
      const { page, complaints } = await visit(search, { width });
      await page.locator(search.includes('view') ? 'article[data-ready]' : 'main aside').waitFor();
      await page.waitForLoadState('networkidle');
      await expectToFit(page);
      expect(await findViolations(page)).toEqual([]);
      if (width > 500) await page.setViewportSize({ width: 1920, height: 900 });
      await page.emulateMedia({ colorScheme: 'dark' });
      await expectToFit(page);
      expect(await findViolations(page)).toEqual([]);
      expect(complaints).toEqual([]);
      await page.close();
    }
  },
);
