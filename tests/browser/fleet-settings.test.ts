import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { z } from 'zod';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { type Depot, depotInput, platformInput } from '#server/contract/fleet.ts';
import { outlook } from '#server/contract/ranking.ts';
import { thresholds } from '#server/contract/settings.ts';
import { vehicleDetail } from '#server/contract/vehicle.ts';
import { book } from '#tests/helpers/bookable-fleet.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { makeReading } from '#tests/helpers/make-reading.ts';
import { plainEnd, sendPlainFleet } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { isFocused, press } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { expectToFit, headOf, pathOf } from './open-access.ts';
import { holdBack, openServed } from './open-served.ts';

let browser: Browser;
let app: TestApp;
/** The processors are shared: a second is not always enough. */
const patient = { timeout: 20_000 };

beforeAll(async () => {
  await ensureScreens();
  browser = await launchBrowser();
  app = await startApp({}, plainEnd);
  await sendPlainFleet(app);
  // A reading of a vehicle that nobody has registered.
  await app.post('/api/readings', [makeReading({ vehicle: 'X-9', at: plainEnd.toISOString() })]);
  // The clock of the fleet stands on a Wednesday.
  await book(app, { vehicle: 'P-01', day: '2026-03-09', bay: 2, from: '13:00' });
  await book(app, { vehicle: 'P-03', day: '2026-03-10', bay: 1, from: '07:00' });
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

/** Key by key, as a day goes through the years 2, 20 and 202. */
async function typeDay(page: Page, digits: string): Promise<void> {
  for (const digit of digits) {
    await page.keyboard.type(digit);
    await page.evaluate(() => new Promise(requestAnimationFrame));
  }
}
const effect = (page: Page) => page.getByRole('region', { name: 'Effect on the list' });
const isMade = (page: Page) => effect(page).getByText('Nothing is saved yet.').waitFor(patient);
const readDepot = async (id: string): Promise<Depot | undefined> =>
  z
    .array(depotInput)
    .parse(await (await app.get('/api/depots')).json())
    .find((one) => one.id === id);
const readCounts = async () => outlook.parse(await (await app.get('/api/ranking/outlook')).json()).counts;
/** What stands under each grade in the effect, after the arrow where there is one. */
const shownCounts = async (page: Page) => {
  const all = await effect(page).locator('dl > div').allInnerTexts();
  return Object.fromEntries(
    all.map((text) => {
      const [grade = '', count = ''] = text.split('\n').filter((line) => line.trim() !== '');
      return [grade.trim(), Number(count.split('→').at(-1))];
    }),
  );
};

describe('the settings of the fleet', () => {
  it.each([
    ['/settings/depots?open=north', 390, 'light'],
    ['/settings/depots?open=north', 1280, 'dark'],
    ['/settings/depots?open=south', 1920, 'light'],
    ['/settings/platforms?open=p-type', 390, 'dark'],
    ['/settings/platforms?open=p-type', 1280, 'light'],
    ['/settings/platforms', 1920, 'dark'],
    ['/settings/thresholds', 390, 'light'],
    ['/settings/thresholds', 1280, 'dark'],
    ['/settings/thresholds', 1920, 'light'],
  ] as const)('pass WCAG 2.2 AA and fit: %s at %i px, %s', async (path, width, colorScheme) => {
    const { page, complaints } = await openServed(browser, app, path, { width, colorScheme });
    await page.locator('main :is(tbody tr, input)').first().waitFor(patient);
    await page.waitForLoadState('networkidle');
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('are reached by keys alone, and are not for a planner', async () => {
    const { page } = await openServed(browser, app, '/settings/people');
    const nav = page.getByRole('navigation', { name: 'Settings' });
    for (const name of ['Depots', 'Platforms', 'Thresholds']) {
      await nav.getByRole('link', { name }).press('Enter');
      await headOf(page, name).waitFor(patient);
    }
    await page.close();
    for (const path of ['depots', 'platforms', 'thresholds']) {
      const other = await openServed(browser, app, `/settings/${path}`, { as: 'planner' });
      await other.page.getByText('Settings are for admins.').waitFor(patient);
      expect(await other.page.getByRole('link', { name: 'Settings' }).count()).toBe(0);
      await other.page.close();
    }
  });
});

describe('a depot', () => {
  it('gets hours and a holiday by keys alone, and says first which bookings no longer fit', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/depots');
    await page.getByRole('button', { name: /North yard/ }).press('Enter');
    expect(new URL(page.url()).searchParams.get('open')).toBe('north');
    const form = page.getByRole('form', { name: 'Depot North yard' });
    await form.getByText('2 bays, open 45 h a week: 90 bay hours.').waitFor(patient);
    expect(await form.getByRole('button', { name: 'Save the depot' }).isDisabled()).toBe(true);
    const bays = form.getByLabel('Bays', { exact: true }).first();
    await bays.fill('1');
    await form.getByText('One bay, open 45 h a week: 45 bay hours.').waitFor(patient);
    await form.getByText('1 of 2 bookings ahead would no longer fit:').waitFor(patient);
    await form.getByText('North yard has one bay on Mon 9 Mar, so there is no bay 2.').waitFor(patient);
    await press(form, 'Add a special day');
    await form.getByLabel('Day', { exact: true }).fill('2026-03-10');
    await form.getByLabel('Note', { exact: true }).fill('stocktaking');
    await form.getByText('Both bookings ahead would no longer fit:').waitFor(patient);
    expect(await findViolations(page)).toEqual([]);
    await press(form, 'Save the depot');
    const ask = page.getByRole('dialog', { name: 'Save it although bookings no longer fit?' });
    await ask.waitFor(patient);
    expect(await findViolations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await ask.waitFor({ state: 'detached' });
    expect((await readDepot('north'))?.bays).toBe(2);
    await press(form, 'Save the depot');
    await press(ask, 'Save the depot');
    await form.getByText('Saved.').waitFor(patient);
    expect(await readDepot('north')).toMatchObject({
      bays: 1,
      special_days: [{ day: '2026-03-10', bays: 0, hours: null, note: 'stocktaking' }],
    });
    await press(form, 'Remove Tue 10 Mar');
    await bays.fill('2');
    await press(form, 'Save the depot');
    await expect.poll(async () => (await readDepot('north'))?.special_days, patient).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('shows its days by shape and in words: as usual, less, more, closed', async () => {
    await app.post('/api/depots', {
      id: 'south',
      name: 'South yard',
      special_days: [
        { day: '2026-01-06', bays: 0, note: 'long past' },
        { day: '2026-03-20', bays: 0, note: 'town fair' },
        { day: '2026-03-23', hours: { from: '07:00', to: '10:00' } },
        { day: '2026-03-28', hours: { from: '08:00', to: '12:00' }, note: 'extra Saturday' },
      ],
    });
    const { page } = await openServed(browser, app, '/settings/depots?open=south');
    const march = page.getByRole('table', { name: 'March 2026' });
    await march.waitFor(patient);
    const day = (words: string) => march.getByText(words, { exact: true });
    await day('19, 07:00 to 16:00, one bay').waitFor({ state: 'attached' });
    await day('20, closed by a special day, town fair').waitFor({ state: 'attached' });
    await day('21, no working day').waitFor({ state: 'attached' });
    await day('23, less than usual: 07:00 to 10:00, one bay').waitFor({ state: 'attached' });
    await day('28, more than usual: 08:00 to 12:00, one bay, extra Saturday').waitFor({ state: 'attached' });
    const bars = await march
      .locator('[data-kind]')
      .evaluateAll((all) =>
        all.map((one) => [
          (one as HTMLElement).dataset.kind,
          getComputedStyle(one, '::after').content === 'none'
            ? getComputedStyle(one).textDecorationLine
            : `${getComputedStyle(one, '::after').height} ${getComputedStyle(one, '::after').width}`,
        ]),
      );
    expect(new Set(bars.map(([kind, mark]) => `${kind}: ${mark}`)).size).toBe(5);
    expect(new Set(bars.map(([, mark]) => mark)).size).toBe(5);
    await page.getByText('1 day that is over').waitFor();
    expect(await page.getByText('long past').isVisible()).toBe(false);
    await page.getByText('1 day that is over').click();
    await page.getByRole('button', { name: 'Remove Tue 6 Jan 2026' }).click();
    await page.getByRole('button', { name: 'Save the depot' }).click();
    await expect.poll(async () => (await readDepot('south'))?.special_days.length, patient).toBe(3);
    await page.close();
  });

  it('gets a day typed by keys, which has the focus from its first field on', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/depots?open=south');
    const form = page.getByRole('form', { name: 'Depot South yard' });
    await press(form, 'Add a special day');
    await typeDay(page, '12242026');
    const day = form.getByLabel('Day', { exact: true }).last();
    expect(await day.inputValue()).toBe('2026-12-24');
    expect(await isFocused(day)).toBe(true);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('keeps what others changed meanwhile, and what is typed while it is saved', async () => {
    const { page } = await openServed(browser, app, '/settings/depots?open=south');
    const form = page.getByRole('form', { name: /^Depot South/ });
    const name = form.getByLabel('Name', { exact: true });
    await name.waitFor(patient);
    await page.waitForLoadState('networkidle');
    const before = await readDepot('south');
    const fair = { day: '2026-04-14', bays: 0, hours: null, note: 'by another admin' };
    const days = [...(before?.special_days ?? []), fair];
    await app.post('/api/depots', { id: 'south', name: 'South yard', special_days: days });
    const goOn = await holdBack(page, '**/api/depots');
    const sent = page.waitForRequest('**/api/depots');
    await name.fill('South gate');
    await press(form, 'Save the depot');
    await sent;
    await form.getByLabel('Bays', { exact: true }).first().fill('3');
    goOn();
    await expect.poll(async () => (await readDepot('south'))?.name, patient).toBe('South gate');
    expect((await readDepot('south'))?.special_days).toEqual(days);
    await page.getByRole('form', { name: 'Depot South gate' }).waitFor(patient);
    expect(await form.getByLabel('Bays', { exact: true }).first().inputValue()).toBe('3');
    await name.fill('South yard');
    await press(form, 'Save the depot');
    await form.getByText('Saved.').waitFor(patient);
    expect(await readDepot('south')).toMatchObject({ name: 'South yard', bays: 3, special_days: days });
    await app.post('/api/depots', before);
    await page.close();
  });

  it('that could not be says at each field what is wrong, and is not saved', async () => {
    const { page } = await openServed(browser, app, '/settings/depots?open=south');
    const form = page.getByRole('form', { name: 'Depot South yard' });
    await form.getByLabel('Monday from').fill('16');
    await form.getByLabel('Monday to').fill('7');
    await form.getByText('They end before they begin.').waitFor(patient);
    expect(await form.getByLabel('Monday to').getAttribute('aria-invalid')).toBe('true');
    await form.getByLabel('Time zone').fill('Moon/Base');
    await form.getByText('There is no such time zone.').waitFor(patient);
    await form.getByLabel('Bays', { exact: true }).first().fill('-1');
    await form.getByText('Not below 0.').waitFor(patient);
    await form.getByRole('button', { name: 'Add a special day' }).click();
    await form.getByLabel('Day', { exact: true }).last().fill('2026-03-20');
    await form.getByText('This day is there already.').waitFor(patient);
    expect(await findViolations(page)).toEqual([]);
    await form.getByRole('button', { name: 'Save the depot' }).click();
    await form.getByText('Not saved: a field above needs another look.').waitFor(patient);
    for (const name of ['Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday'])
      await form.getByRole('checkbox', { name, exact: true }).uncheck();
    await form.getByRole('button', { name: 'Remove Sat 28 Mar' }).click();
    await form.getByRole('button', { name: 'Remove Mon 23 Mar' }).click();
    await form.getByText('Nobody works on any day, so nothing could be booked').waitFor(patient);
    expect((await readDepot('south'))?.bays).toBe(1);
    await page.close();
  });

  it('is made, in a time zone that is found by a part of its name', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/depots');
    await page.getByRole('button', { name: 'New depot' }).click();
    await page.keyboard.type('Eastmere');
    const form = page.getByRole('form', { name: 'New depot' });
    const zones = await form
      .locator('datalist option')
      .evaluateAll((all) => all.map((one) => (one as HTMLOptionElement).value));
    expect(zones).toContain('Europe/Vienna');
    await form.getByLabel('Time zone').fill('Europe/Vienna');
    await form.getByText('It is 01:00 on Wednesday there now.').waitFor(patient);
    await form.getByRole('button', { name: 'Make the depot' }).click();
    await form.getByText('An id is needed.').waitFor(patient);
    await form.getByLabel('Id', { exact: true }).fill('east');
    await form.getByLabel('Saturday', { exact: true }).check();
    await form.getByLabel('Saturday to').fill('12');
    await form.getByRole('button', { name: 'Make the depot' }).click();
    await page.getByRole('form', { name: 'Depot Eastmere' }).waitFor(patient);
    expect(await readDepot('east')).toMatchObject({
      name: 'Eastmere',
      time_zone: 'Europe/Vienna',
      week: { saturday: { from: '07:00', to: '12:00' } },
    });
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('a platform', () => {
  const read = async (id: string) =>
    z
      .array(platformInput)
      .parse(await (await app.get('/api/platforms')).json())
      .find((one) => one.id === id);

  it('shows what another limit would do as it is typed, and the list becomes that once it is saved', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/platforms?open=p-type');
    await effect(page).getByText('Change the limit').waitFor(patient);
    const limit = page.getByLabel('Limit, rpm of slip at the reference point');
    const before = await readCounts();
    await limit.fill('45');
    await isMade(page);
    expect(await findViolations(page)).toEqual([]);
    const told = await shownCounts(page);
    expect(told).not.toEqual(before);
    expect(await readCounts()).toEqual(before);
    await limit.press('Enter');
    await page.getByText('Saved. The list follows within seconds.').waitFor(patient);
    await expect.poll(readCounts, patient).toEqual(told);
    expect((await read('p-type'))?.limit_rpm).toBe(45);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('with costs that make no sense says so, and with wrong ones does not save', async () => {
    const { page } = await openServed(browser, app, '/settings/platforms?open=q-type', { width: 390 });
    await page.getByLabel('Planned repair', { exact: true }).fill('9500');
    await page.getByText('inspecting then never pays').waitFor(patient);
    await isMade(page);
    await page.getByLabel('Lost day', { exact: true }).fill('-60');
    await page.getByText('Not below 0.').waitFor(patient);
    await effect(page).getByText('It is shown once every figure is right.').waitFor(patient);
    await page.getByLabel('Limit, rpm of slip at the reference point').fill('0');
    await page.getByText('Above 0: at a limit of 0 every clutch counts as failed.').waitFor(patient);
    await page.getByLabel('An inspection has the bay for, h').fill('2.1');
    await page.getByText('In steps of 0.25 h.').waitFor(patient);
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    const before = await read('q-type');
    await page.getByRole('button', { name: 'Save the platform' }).click();
    expect(await read('q-type')).toEqual(before);
    await page.getByRole('button', { name: 'Put back what is stored' }).click();
    expect(await page.getByLabel('Lost day', { exact: true }).inputValue()).toBe('60');
    await page.close();
  });

  it('gets the figures for the shop, says the expected current at once, and is without them again', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/platforms?open=q-type', {
      width: 390,
    });
    const field = (name: string) => page.getByLabel(name, { exact: true });
    await page.getByText('Not known: the step then has no figure').waitFor(patient);
    await field('Coil at 20 °C, ohm').fill('5,5');
    await page.getByText('A figure is needed, or leave all 4 empty.').waitFor(patient);
    await field('Supply, V').fill('24');
    await page
      .getByText('24 V / (5.5 + 0.5) ohm = 4.0 A; right from 3.0 to 5.0 A.', { exact: false })
      .waitFor(patient);
    await field('Price').fill('1,450');
    await field('Core deposit').fill('1900');
    await field('Tolerance, %').fill('95');
    await page.getByText('Not above 90 %.').waitFor(patient);
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    await field('Tolerance, %').fill('20');
    await field('Tolerance, %').press('Enter');
    await page.getByText('Saved. The list follows within seconds.').waitFor(patient);
    expect(await read('q-type')).toMatchObject({
      solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 20 },
      converter: { price: 1450, core_deposit: 1900, spare_cores: 0 },
    });
    expect(await field('Spare cores at hand').inputValue()).toBe('0');
    await field('Coil at 20 °C, ohm').fill('6');
    await field('Coil at 20 °C, ohm').press('Enter');
    await expect.poll(async () => (await read('q-type'))?.solenoid?.ohm, patient).toBe(6);
    for (const name of ['Price', 'Core deposit', 'Spare cores at hand']) await field(name).fill('');
    await field('Price').press('Enter');
    await expect.poll(async () => (await read('q-type'))?.converter, patient).toBe(null);
    expect((await read('q-type'))?.solenoid).toMatchObject({ ohm: 6, supply_v: 24, tolerance_pct: 20 });
    await page.getByRole('link', { name: /What was changed about/ }).click();
    for (const line of ['solenoid, coil', 'converter, core deposit'])
      await page.getByText(line, { exact: false }).first().waitFor(patient);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is read and saved in the reader’s units, and says what cannot be shown before', async () => {
    const { page } = await openServed(browser, app, '/settings/platforms?open=q-type');
    await page.evaluate(() => {
      localStorage.setItem('slipdrift.distance', 'mi');
      localStorage.setItem('slipdrift.temperature', 'F');
    });
    await page.reload();
    await page.getByLabel('Expected life of a converter, mi').fill('200,000');
    await page.getByLabel('Fluid, °F').fill('194');
    await page.getByText('What that does to the list cannot be shown before.').waitFor(patient);
    await page.getByLabel('An inspection has the bay for, h').fill('2.5');
    await page.getByRole('button', { name: 'Save the platform' }).click();
    await page.getByText('Saved. The list follows within seconds.').waitFor(patient);
    expect(await read('q-type')).toMatchObject({
      life_km: 321_869,
      reference: { duty_pct: 85, load_pct: 50, fluid_c: 90 },
      inspection_hours: 2.5,
      limit_rpm: 160,
    });
    await page.close();
  });

  it('keeps what others changed meanwhile, and what is typed while it is saved', async () => {
    const { page } = await openServed(browser, app, '/settings/platforms?open=q-type');
    const form = page.getByRole('form', { name: /^Platform / });
    const name = form.getByLabel('Name', { exact: true });
    const before = await read('q-type');
    await name.fill(`${before?.name} one`);
    await app.post('/api/platforms', { ...before, inspection_hours: 5 });
    // Another tab comes to the front and back: what is old by then is asked for again.
    await page.clock.setFixedTime(new Date(plainEnd.getTime() + 11 * 60_000));
    const asked = page.waitForResponse('**/api/platforms');
    await page.evaluate(() => window.dispatchEvent(new Event('visibilitychange')));
    await asked;
    const goOn = await holdBack(page, '**/api/platforms');
    const sent = page.waitForRequest('**/api/platforms');
    await press(form, 'Save the platform');
    await sent;
    await form.getByLabel('Lost day', { exact: true }).fill('75');
    goOn();
    await page.getByRole('form', { name: `Platform ${before?.name} one` }).waitFor(patient);
    expect(await form.getByLabel('Lost day', { exact: true }).inputValue()).toBe('75');
    expect(await read('q-type')).toEqual({ ...before, name: `${before?.name} one`, inspection_hours: 5 });
    await app.post('/api/platforms', before);
    await page.close();
  });

  it('is made with what is usual', async () => {
    const { page } = await openServed(browser, app, '/settings/platforms');
    await page.getByRole('button', { name: 'New platform' }).click();
    await page.keyboard.type('Small van');
    await page.getByLabel('Id', { exact: true }).fill('van');
    await page.getByRole('button', { name: 'Make the platform' }).click();
    await page.getByRole('form', { name: 'Platform Small van' }).waitFor(patient);
    expect(await read('van')).toEqual(platformInput.parse({ id: 'van', name: 'Small van' }));
    await page.close();
  });
});

describe('thresholds', () => {
  it('show their effect, warn of what is likely a slip, and grade the list anew', async () => {
    const { page, complaints } = await openServed(browser, app, '/settings/thresholds');
    const before = await readCounts();
    await page.getByLabel('Hold from a chance of, %').fill('2');
    await page.getByLabel('Book from a chance of, %').fill('3');
    await page.getByText('A vehicle is then held at a smaller chance').waitFor(patient);
    await isMade(page);
    const told = await shownCounts(page);
    expect(Object.values(told).reduce((sum, n) => sum + n, 0)).toBe(
      Object.values(before).reduce((sum, n) => sum + n, 0),
    );
    expect(await findViolations(page)).toEqual([]);
    await page.getByRole('button', { name: 'Save the thresholds' }).press('Enter');
    await page.getByText('Saved. The list is ranked again within seconds.').waitFor(patient);
    await expect.poll(readCounts, patient).toEqual(told);
    await page.getByLabel('Unknown after so many days').fill('7');
    await page.getByText('Not below 14 days.').waitFor(patient);
    await effect(page).getByText('It is shown once every figure is right.').waitFor(patient);
    await page.getByRole('button', { name: 'Put back what is usual' }).click();
    await page.getByRole('button', { name: 'Save the thresholds' }).click();
    await expect
      .poll(async () => thresholds.parse(await (await app.get('/api/settings/thresholds')).json()), patient)
      .toEqual(thresholds.parse({}));
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('a vehicle', () => {
  const read = async (unit: string) =>
    vehicleDetail.parse(await (await app.get(`/api/vehicles/${unit}`)).json());

  it('that nobody registered gets depot and platform from a planner', async () => {
    const { page, complaints } = await openServed(browser, app, '/vehicles/X-9', { as: 'planner' });
    await page.getByText('Known from its readings alone.').waitFor(patient);
    await press(page, 'Change home and days');
    const form = page.getByRole('form', { name: 'Home and days of X-9' });
    await form.getByLabel('Home depot').selectOption('south');
    await form.getByLabel('Platform').selectOption('q-type');
    await press(form, 'Save home and days');
    await page.getByText('Saved.').waitFor(patient);
    expect(await read('X-9')).toMatchObject({ depot: 'south', platform: 'q-type' });
    expect(await page.getByText('Known from its readings alone.').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each([
    [390, 'light'],
    [1280, 'dark'],
  ] as const)('gets days on which it cannot be taken, at %i px, %s', async (width, colorScheme) => {
    const { page } = await openServed(browser, app, '/vehicles/P-01', { as: 'planner', width, colorScheme });
    await page.getByText(/^It drives 150\skm a day, by its own readings/).waitFor(patient);
    await press(page, 'Change home and days');
    const form = page.getByRole('form', { name: 'Home and days of P-01' });
    await press(form, 'Add days');
    await form.getByLabel('From', { exact: true }).fill('2026-03-12');
    await form.getByLabel('To, included').fill('2026-03-08');
    await form.getByText('It is before the first day.').waitFor();
    await form.getByLabel('From', { exact: true }).fill('2026-03-07');
    await form.getByLabel('To, included').fill('2026-03-12');
    await form.getByLabel('Note', { exact: true }).fill('lent out');
    await form.getByText('It is booked on Mon 9 Mar, which is among these days.').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    await press(form, 'Save home and days');
    await page.getByText('It cannot be taken on 7 to 12 Mar 2026 (lent out).').waitFor(patient);
    expect((await read('P-01')).unavailable).toEqual([
      { from: '2026-03-07', to: '2026-03-12', note: 'lent out' },
    ]);
    await press(page, 'Change home and days');
    await press(form, 'Remove the days from 2026-03-07');
    await press(form, 'Save home and days');
    await page.getByText('It can be taken on any day.').waitFor(patient);
    expect(pathOf(page)).toBe('/vehicles/P-01');
    await page.close();
  });

  it('gets days typed by keys', async () => {
    const { page } = await openServed(browser, app, '/vehicles/P-01', { as: 'planner' });
    await press(page, 'Change home and days');
    const form = page.getByRole('form', { name: 'Home and days of P-01' });
    await press(form, 'Add days');
    await typeDay(page, '12242026');
    const from = form.getByLabel('From', { exact: true });
    expect(await from.inputValue()).toBe('2026-12-24');
    expect(await isFocused(from)).toBe(true);
    await page.close();
  });

  it('shows an analyst its days, and lets only those change them who plan', async () => {
    const { page } = await openServed(browser, app, '/vehicles/P-01', { as: 'analyst' });
    await page.getByText('It can be taken on any day.').waitFor(patient);
    expect(await page.getByRole('button', { name: 'Change home and days' }).count()).toBe(0);
    await page.close();
  });
});
