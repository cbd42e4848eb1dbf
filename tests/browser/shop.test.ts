import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { type Access, fixtureNow, makeAccess, makeAtShop } from './fixtures/access-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { vehicleCases } from './fixtures/vehicle-cases.ts';
import { newPage } from './new-page.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';
import { serveVehicle, vehicleAddress } from './open-vehicle.ts';

const one = vehicleCases.drifting!;
const note = 'Shudders when warm, between 60 and 80 km/h. Stands at gate 2.';
let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

async function openVehicle(access: Access, width = 1280, colorScheme: 'light' | 'dark' = 'light') {
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    timezoneId: 'UTC',
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await page.clock.setFixedTime(fixtureNow);
  await serveVehicle(page, one, access);
  await page.goto(vehicleAddress(one));
  await headOf(page, one.vehicle).waitFor();
  return { page, complaints };
}

const sentTo = (role: 'planner' | 'shop' | 'analyst' | 'admin', words: string | null = note): Access => {
  const access = makeAccess({ role });
  access.atShop.set(one.vehicle, makeAtShop(words));
  return access;
};

describe('a vehicle', () => {
  it.each(['planner', 'admin'] as const)(
    'is sent to a shop with a note by the %s, and called back',
    async (role) => {
      const access = makeAccess({ role });
      const { page, complaints } = await openVehicle(access);
      await page.getByRole('button', { name: 'Send to a shop' }).press('Enter');
      expect(await page.getByLabel('Shop of').inputValue()).toBe('harrow-vale');
      await page.getByLabel('Shop of').selectOption('mossgate');
      await page.getByLabel('Note for the shop').fill(`  ${note.replace('. ', '.\n')}  `);
      expect(await findViolations(page)).toEqual([]);
      await page.getByRole('button', { name: 'Send to this shop' }).press('Enter');
      await page.getByText('At the shop of Mossgate').waitFor();
      await page.getByText('since 4 Mar 2026, 08:30, sent by Maren Oduya').waitFor();
      expect(access.atShop.get(one.vehicle)).toMatchObject({
        depot: 'mossgate',
        note: note.replace('. ', '.\n'),
      });
      expect(await page.getByText('Shudders when warm').allInnerTexts()).toEqual([note.replace('. ', '.\n')]);
      await page.getByRole('button', { name: 'Call back' }).press('Enter');
      await page.getByRole('dialog').getByRole('button', { name: 'Call back' }).press('Enter');
      await page.getByRole('button', { name: 'Send to a shop' }).waitFor();
      expect(access.atShop.size).toBe(0);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('goes only to depots of a planner who has some', async () => {
    const { page } = await openVehicle(makeAccess({ role: 'planner', depots: ['mossgate'] }));
    await page.getByRole('button', { name: 'Send to a shop' }).click();
    await page.getByRole('option', { name: 'Mossgate' }).waitFor({ state: 'attached' });
    expect(await page.getByLabel('Shop of').getByRole('option').allTextContents()).toEqual(['Mossgate']);
    await page.close();
  });

  it('shows the shop its note before anything else, and nothing to press', async () => {
    const { page, complaints } = await openVehicle(sentTo('shop'), 390);
    const words = page.getByText('Shudders when warm');
    await words.waitFor();
    await page.getByText('Sent to Harrow Vale by Maren Oduya, 3 Mar 2026, 08:30').waitFor();
    const top = async (part: typeof words) => (await part.boundingBox())!.y;
    expect(await top(words)).toBeLessThan(await top(headOf(page, one.vehicle)));
    expect(await page.getByRole('button', { name: /Call back|Send to a shop/ }).count()).toBe(0);
    await page.locator('[data-chart="ready"]').first().waitFor();
    expect(await page.getByRole('link', { name: 'What the platform did' }).count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('tells the analyst where it is, and no more', async () => {
    const { page } = await openVehicle(sentTo('analyst', null));
    await page.getByText(', without a note').waitFor();
    expect(await page.getByRole('button', { name: 'Call back' }).count()).toBe(0);
    await page.close();
    const { page: other } = await openVehicle(makeAccess({ role: 'analyst' }));
    await other.getByRole('heading', { name: 'History' }).waitFor();
    expect(await other.getByRole('button', { name: 'Send to a shop' }).count()).toBe(0);
    await other.close();
  });

  it('that is not with the shop is said so in its words', async () => {
    const { page } = await openAccess(browser, '/vehicles/nobody', { access: makeAccess({ role: 'shop' }) });
    await page.getByText('No vehicle with this unit number is sent to you').waitFor();
    await page.close();
  });
});

describe('the list of a shop', () => {
  it.each([
    [390, 'light'],
    [1280, 'dark'],
  ] as const)('passes WCAG 2.2 AA at %i px, %s, and speaks of what was sent', async (width, colorScheme) => {
    const access = makeAccess({ role: 'shop', depots: ['harrow-vale'] });
    const { page, complaints } = await openAccess(browser, '/', {
      access,
      rows: makeRows(8),
      width,
      colorScheme,
    });
    await headOf(page, 'Sent to you').waitFor();
    await page.getByText(/^8 vehicles are sent to you\./).waitFor();
    await page.locator('[data-row-button]').first().waitFor();
    expect(await page.locator('[data-chart]').count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says that nothing is sent', async () => {
    const access = makeAccess({ role: 'shop', depots: ['harrow-vale'] });
    const { page } = await openAccess(browser, '/', { access, rows: [] });
    await page.getByText('Nothing is sent to you now.').waitFor();
    await page.getByText('to the shop of Harrow Vale, it appears here').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.close();
  });
});

describe('the inspection list', () => {
  it('is a file with the same filters', async () => {
    const { page } = await openAccess(browser, '/?grade=hold,book&q=B-1&horizon_km=8000&sort=slip&open=x');
    const file = page.getByRole('link', { name: 'Download CSV' });
    const { pathname, searchParams } = new URL((await file.getAttribute('href')) ?? '', page.url());
    expect(pathname).toBe('/api/ranking.csv');
    expect(Object.fromEntries(searchParams)).toEqual({
      grade: 'hold,book',
      q: 'B-1',
      horizon_km: '8000',
      sort: 'slip',
      units: 'metric',
    });
    await page.close();
  });

  it('without a vehicle of one’s depots says so', async () => {
    const { page } = await openAccess(browser, '/', {
      access: makeAccess({ depots: ['mossgate'] }),
      rows: [],
    });
    await page.getByText('No vehicle of your depots has sent a reading yet.').waitFor();
    await page.close();
  });
});
