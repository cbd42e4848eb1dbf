import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { type VehicleCase, vehicleCases } from './fixtures/vehicle-cases.ts';
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
  search?: string;
  width?: number;
  colorScheme?: 'light' | 'dark';
  hasTouch?: boolean;
}

async function openVehicle(one: VehicleCase, options: Options = {}) {
  const { search = '', width = 1280, colorScheme = 'light', hasTouch = false } = options;
  const page = await newPage(browser, { viewport: { width, height: 900 }, colorScheme, hasTouch });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime('2026-03-04T08:30:00Z');
  await serveVehicle(page, one);
  await page.goto(vehicleAddress(one, search));
  return { page, complaints };
}

const chartOf = (page: Page) => page.getByRole('application', { name: /^Slip against mileage/ });
const searchOf = (page: Page) => new URL(page.url()).searchParams;
const isDrawn = (page: Page) => page.locator('[data-chart="ready"] svg').first().waitFor();

/** Keys that come while the screen still moves for the ones before; answers the address they lead to. */
async function pressAtOnce(page: Page, keys: readonly string[]): Promise<string> {
  const before = `${searchOf(page)}`;
  await page.evaluate((all) => {
    for (const key of all)
      document.activeElement?.dispatchEvent(
        new KeyboardEvent('keydown', {
          key: key.replace('Shift+', ''),
          shiftKey: key.startsWith('Shift+'),
          bubbles: true,
        }),
      );
  }, keys);
  await expect.poll(() => `${searchOf(page)}`).not.toBe(before);
  return `${searchOf(page)}`;
}

describe('the vehicle screen', () => {
  it.each([
    ['drifting', 1280, 'light'],
    ['lives', 1280, 'dark'],
    ['past', 390, 'light'],
    ['bare', 390, 'dark'],
  ] as const)('passes WCAG 2.2 AA: %s at %i px, %s', async (name, width, colorScheme) => {
    const { page, complaints } = await openVehicle(vehicleCases[name]!, { width, colorScheme });
    await isDrawn(page);
    await page.keyboard.press('n');
    await page.getByRole('table').first().waitFor();
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it.each(['lives', 'bare'])('fits a phone: %s never scrolls sideways', async (name) => {
    const { page } = await openVehicle(vehicleCases[name]!, { width: 390 });
    await isDrawn(page);
    const { scroll, shown } = await page.evaluate(() => ({
      scroll: document.documentElement.scrollWidth,
      shown: document.documentElement.clientWidth,
    }));
    expect(scroll).toBeLessThanOrEqual(shown);
    const small = await page
      .locator('main button, main select')
      .evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 43.9).length);
    expect(small).toBe(0);
    await page.close();
  });

  it('reads, zooms and comes back by keys alone', async () => {
    const { page, complaints } = await openVehicle(vehicleCases.drifting!);
    await isDrawn(page);
    const chart = chartOf(page);
    await chart.focus();
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowLeft');
    const spoken = page.locator('p[aria-live="polite"]');
    await expect.poll(() => spoken.textContent()).toMatch(/^37\d,\d{3}\skm · .*slip \d+\.\d ± \d\.\d\srpm/);
    await page.keyboard.press('End');
    await page.keyboard.press('ArrowRight');
    await expect.poll(() => spoken.textContent()).toMatch(/^in 500\skm · .*expected slip \d+\srpm, 50\s%/);
    expect(searchOf(page).has('from')).toBe(false);
    await page.keyboard.press('+');
    await expect.poll(() => searchOf(page).has('from')).toBe(true);
    const near = Number(searchOf(page).get('to')) - Number(searchOf(page).get('from'));
    await page.keyboard.press('Shift+ArrowLeft');
    await expect.poll(() => Number(searchOf(page).get('to'))).toBeLessThan(376_000);
    await page.keyboard.press('-');
    await expect
      .poll(() => Number(searchOf(page).get('to')) - Number(searchOf(page).get('from')))
      .toBeGreaterThan(near * 1.5);
    await page.keyboard.press('0');
    await expect.poll(() => Number(searchOf(page).get('from'))).toBeLessThan(281_400);
    const held = await pressAtOnce(page, ['+', '+', 'Shift+ArrowLeft', '-']);
    await page.keyboard.press('0');
    await expect.poll(() => Number(searchOf(page).get('from'))).toBeLessThan(281_400);
    for (const key of ['+', '+', 'Shift+ArrowLeft', '-']) {
      await page.keyboard.press(key);
      await page.waitForTimeout(300);
    }
    expect(`${searchOf(page)}`).toBe(held);
    await page.getByRole('button', { name: 'the rise' }).press('Enter');
    await expect.poll(() => searchOf(page).has('from')).toBe(false);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('zooms to what the mouse marks and shows all again on a double click', async () => {
    const { page } = await openVehicle(vehicleCases.steady!);
    await isDrawn(page);
    const box = (await chartOf(page).boundingBox())!;
    const y = box.y + 120;
    await page.mouse.move(box.x + 300, y);
    await page.mouse.down();
    await page.mouse.move(box.x + 400, y, { steps: 4 });
    await page.mouse.move(box.x + 500, y, { steps: 4 });
    await page.mouse.up();
    await expect.poll(() => searchOf(page).has('from')).toBe(true);
    const span = Number(searchOf(page).get('to')) - Number(searchOf(page).get('from'));
    expect(span).toBeGreaterThan(15_000);
    expect(span).toBeLessThan(25_000);
    await page.mouse.dblclick(box.x + 700, y);
    await expect.poll(() => searchOf(page).has('from')).toBe(false);
    await page.close();
  });

  it('opens at the range, band and life of its address', async () => {
    const { page } = await openVehicle(vehicleCases.lives!, {
      search: '?from=440000&to=470000&band=85-100&life=3',
    });
    await isDrawn(page);
    expect(await page.getByRole('combobox', { name: 'command' }).inputValue()).toBe('85-100');
    expect(await page.getByRole('combobox', { name: 'life' }).inputValue()).toBe('3');
    const words = await page.locator('[data-chart] svg text').allTextContents();
    expect(words).toContain('slip at 85 to 100\u00a0% command, rpm');
    expect(words).toContain('445');
    expect(words.some((text) => text.startsWith('limit'))).toBe(false);
    await page.close();
  });

  it('puts a band into the large plot by a press on its strip, and back by another', async () => {
    const { page } = await openVehicle(vehicleCases.drifting!);
    await isDrawn(page);
    const name = page.locator('[data-chart] svg text', { hasText: '70 to 85 %' }).first();
    await name.scrollIntoViewIfNeeded();
    const box = (await name.boundingBox())!;
    await page.mouse.click(box.x - 300, box.y + 10);
    await expect.poll(() => searchOf(page).get('band')).toBe('70-85');
    await page.getByRole('combobox', { name: 'command' }).selectOption('');
    await expect.poll(() => searchOf(page).has('band')).toBe(false);
    await page.close();
  });

  it('lists the drawn numbers on key n and takes them away again', async () => {
    const { page } = await openVehicle(vehicleCases.drifting!);
    await isDrawn(page);
    await page.keyboard.press('n');
    const forecast = page.getByRole('table', { name: /^Forecast of slip/ });
    await forecast.waitFor();
    expect(await forecast.getByRole('row').count()).toBeGreaterThan(5);
    await page.keyboard.press('n');
    await forecast.waitFor({ state: 'detached' });
    await page.close();
  });

  it('keeps axis, facts and readout in the units of the reader', async () => {
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await page.addInitScript(() => {
      localStorage.setItem('slipdrift.distance', 'mi');
      localStorage.setItem('slipdrift.temperature', 'F');
    });
    await serveVehicle(page, vehicleCases.drifting!);
    await page.goto(vehicleAddress(vehicleCases.drifting!));
    await isDrawn(page);
    const words = await page.locator('[data-chart] svg text').allTextContents();
    expect(words).toContain('odometer, thousand mi');
    expect(words).toContain('now 230,655\u00a0mi');
    expect(words).toContain('fluid, °F');
    await page.getByText('230,655 mi', { exact: true }).waitFor();
    await page.close();
  });

  it('says which signals the feed lacks, and shows no figure of them', async () => {
    const { page, complaints } = await openVehicle(vehicleCases.bare!);
    await isDrawn(page);
    await page.getByText('No fluid temperature in the feed.').waitFor();
    await page.getByText('No load in the feed.').waitFor();
    for (const words of vehicleCases.bare!.missing)
      expect(await page.getByRole('listitem').filter({ hasText: words }).count()).toBe(1);
    expect(await page.locator('main').textContent()).not.toMatch(/NaN|null|undefined/);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says that no vehicle has the number', async () => {
    const page = await browser.newPage();
    await serveFixture(page, []);
    await page.goto(`${origin}/vehicles/nobody`);
    await page.getByText('No vehicle has this unit number.').waitFor();
    await page.close();
  });

  it('keeps words and history when the series cannot be had, and asks again', async () => {
    const one = vehicleCases.drifting!;
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await serveVehicle(page, one);
    let asked = 0;
    await page.route(
      (url) => url.pathname.endsWith('/series'),
      (route) => {
        asked += 1;
        return asked > 1
          ? route.fallback()
          : route.fulfill({
              status: 500,
              contentType: 'application/problem+json',
              body: JSON.stringify({
                title: 'Something broke',
                detail: 'It is logged.',
                code: 'internal',
                status: 500,
              }),
            });
      },
    );
    await page.goto(vehicleAddress(one));
    await page.getByText('Something broke').waitFor();
    await page.getByRole('heading', { name: 'History' }).waitFor();
    await page.getByRole('button', { name: 'Try again' }).click();
    await isDrawn(page);
    await page.close();
  });

  it('stands without stretches: says so in words and shows what was set aside', async () => {
    const one = vehicleCases.little!;
    const page = await browser.newPage({ viewport: { width: 1280, height: 900 } });
    await serveVehicle(page, one);
    await page.route(
      (url) => url.pathname.endsWith('/series'),
      async (route) => {
        const { makeSeries } = await import('./fixtures/vehicle-series.ts');
        return route.fulfill({
          json: { ...makeSeries(one), series: [], readings: { usable: 0, set_aside: 9 } },
        });
      },
    );
    await page.goto(vehicleAddress(one));
    await page.getByText('No usable reading yet: all 9 so far were set aside.').waitFor();
    await page.close();
  });
});
