import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { isFocused, press } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { fixtureReceipt, serveBring } from './fixtures/bring-server.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';
import { origin } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  browser = await launchBrowser();
});
afterAll(async () => {
  await browser?.close();
});

async function open(options: { width?: number; colorScheme?: 'light' | 'dark' } = {}) {
  const { page, complaints } = await openAccess(browser, '/account', options);
  const server = await serveBring(page);
  await page.goto(`${origin}/intake/bring`);
  await headOf(page, 'Bring a file').waitFor();
  return { page, complaints, server };
}

const choose = (page: Page, ...names: string[]) =>
  page
    .locator('input[type=file]')
    .setInputFiles(names.map((name) => ({ name, mimeType: 'text/csv', buffer: Buffer.from('a;b\n1;2\n') })));
const inSight = (page: Page) => page.locator('[role=status]').filter({ hasText: /stored|lacking/ });

describe('bringing a file', () => {
  it.each([
    [390, 'dark', 'Export_2026-02-03.csv'],
    [1280, 'light', 'bus.log.gz'],
    [1280, 'dark', 'long.csv'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s, with %s', async (width, colorScheme, file) => {
    const { page, complaints } = await open({ width, colorScheme });
    expect(await findViolations(page)).toEqual([]);
    await choose(page, file);
    await page.getByRole('heading', { name: '4 As it would be read' }).waitFor();
    if (file.startsWith('Export')) {
      await page.getByLabel('Time zone of clocks that say none').fill('Europe/Berlin');
      await page.getByRole('button', { name: 'Show all 20 rows' }).click();
      await page.getByText('Refused: duty_pct must be at most 100 %').waitFor();
    }
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('goes by keys alone from a file to its receipt, and keeps how it is read', async () => {
    const { page, complaints, server } = await open();
    await choose(page, 'Export_2026-02-03.csv');
    await inSight(page).getByText('No row can be read yet: 1 thing is still lacking.').waitFor();
    const store = page.getByRole('button', { name: 'Keep it and store the file' });
    expect(await store.isDisabled()).toBe(true);
    await page.getByText('Lacking: zone is not said, and the times carry none').waitFor();

    const zone = page.getByLabel('Time zone of clocks that say none');
    await zone.focus();
    await page.keyboard.type('Europe/Berlin');
    await inSight(page).getByText('406 of 412 rows would be stored, 6 refused.').waitFor();
    expect(await isFocused(zone)).toBe(true);
    const first = page
      .getByRole('region', { name: 'First rows as they would be read' })
      .getByRole('row')
      .nth(1);
    expect(
      await first
        .locator('th, td > span > span, td > span > small, td > span:not(:has(*))')
        .allTextContents(),
    ).toEqual([
      'Line 2',
      'K-118',
      '3 Feb 2026, 05:00:10',
      'there 3 Feb, 06:00:10',
      '184,210.5',
      '11.5',
      '85',
      '88',
      '–',
    ]);

    const oil = page.getByLabel('Öltemperatur [°F] is taken for');
    await oil.selectOption('left out');
    expect(await page.getByLabel('Unit of Öltemperatur [°F]').count()).toBe(0);
    await oil.selectOption('fluid temperature');
    await expect.poll(() => page.getByLabel('Unit of Öltemperatur [°F]').inputValue()).toBe('degF');
    // Zones that were typed in part were not asked about.
    await expect
      .poll(() => server.looks.at(-1)?.mapping?.columns.at(-1))
      .toEqual({ column: 'Öltemperatur [°F]', takes: 'fluid_c', unit: 'degF' });
    const zones = new Set(server.looks.map((look) => look.mapping?.time.zone ?? null));
    expect([...zones]).toEqual([null, 'Europe/Berlin']);

    await expect.poll(() => store.isEnabled()).toBe(true);
    await store.press('Enter');
    await page.getByText('403 readings stored, 3 there already, 6 lines refused and kept.').waitFor();
    expect(await page.locator(':focus').textContent()).toContain('403 readings stored');
    expect(server.stored.at(-1)).toMatchObject({
      name: 'Export',
      mapping: { separator: ';', time: { order: 'dmy', zone: 'Europe/Berlin' } },
    });
    expect(server.deliveries).toEqual([{ mapping: 'Export', file: 'Export_2026-02-03.csv' }]);
    expect(new URL(page.url()).searchParams.get('as')).toBe('Export');
    expect(await page.getByRole('link', { name: 'Its refused lines' }).getAttribute('href')).toBe(
      `/intake/refused?receipt=${fixtureReceipt}`,
    );
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('reads the next file as the one before, keeps what is half made, and guesses anew what is cut otherwise', async () => {
    const { page, complaints, server } = await open();
    await choose(page, 'Export_2026-02-03.csv');
    await page.getByLabel('Time zone of clocks that say none').fill('UTC');
    await inSight(page).getByText('406 of 412').waitFor();
    await page.getByRole('link', { name: 'Set-up files', exact: true }).click();
    await headOf(page, /Set-up/).waitFor();
    await page.getByRole('link', { name: 'Bring a file', exact: true }).click();
    await choose(page, 'Export_2026-02-04.csv');
    await page.getByText('As you had begun it on this device.').waitFor();
    await inSight(page).getByText('406 of 412').waitFor();
    await page.getByLabel('How the file is read is kept as').fill('west');
    await press(page, 'Keep it and store the file');
    await page.getByText('403 readings stored').waitFor();

    await page.getByRole('button', { name: 'Take out Export_2026-02-04.csv' }).click();
    await page.goto(`${origin}/intake/bring`);
    await choose(page, 'Export_2026-02-05.csv');
    await page.getByText("All that 'west' takes is in this file.").waitFor();
    await expect.poll(() => server.looks.at(-1)?.mapping_name).toBe('west');
    await page.getByLabel('Cells are parted by').selectOption('commas');
    await expect
      .poll(() =>
        server.looks.slice(-2).map((look) => [look.mapping?.separator, look.mapping?.columns.length]),
      )
      .toEqual([
        [',', 0],
        [',', 7],
      ]);
    await page.getByRole('button', { name: "Back to 'west' as it is kept" }).click();
    await page.getByText('As it is kept.').waitFor();
    await press(page, "Delete 'west'");
    await press(page, 'Delete it');
    await page.getByText('Look through it: a proposal can be wrong.').waitFor();
    expect(server.stored.map(({ name }) => name)).toEqual(['west depot recorder']);
    expect(new URL(page.url()).search).toBe('');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('stores several files one after the other, each with what is said of it, though one fails', async () => {
    const { page, server } = await open();
    await choose(page, 'Export_2026-02-03.csv', 'broken.csv', 'Export_2026-02-04.csv', 'sheet.xlsx');
    await page.getByText('sheet.xlsx is a workbook. Save the sheet as CSV and bring that.').waitFor();
    await page.getByLabel('Time zone of clocks that say none').fill('UTC');
    await page.getByLabel('The zone is kept').selectOption('not: another time it is another');
    await page.getByLabel('The vehicle is named').selectOption('here, for each file');
    const vehicles = page.getByLabel('Vehicle', { exact: true });
    await expect.poll(() => vehicles.count()).toBe(3);
    for (const [i, unit] of ['K-1', 'K-2', 'K-3'].entries()) await vehicles.nth(i).fill(unit);
    await inSight(page).getByText('406 of 412').waitFor();
    await page.getByRole('button', { name: 'Keep it and store 3 files' }).press('Enter');
    await expect.poll(() => page.getByText('403 readings stored').count()).toBe(2);
    await page.getByRole('alert').getByText('The body breaks off. Nothing was stored.').waitFor();
    expect(
      server.deliveries.map(({ file, vehicle, zone, mapping }) => [file, vehicle, zone, mapping]),
    ).toEqual([
      ['Export_2026-02-03.csv', 'K-1', 'UTC', 'Export'],
      ['broken.csv', 'K-2', 'UTC', 'Export'],
      ['Export_2026-02-04.csv', 'K-3', 'UTC', 'Export'],
    ]);
    expect(server.stored.at(-1)?.mapping.time.zone).toBeNull();
    // What is stored is not sent again.
    await page.getByRole('button', { name: 'Store the file', exact: true, disabled: false }).press('Enter');
    await expect.poll(() => server.deliveries.length).toBe(4);
    expect(server.deliveries.at(-1)?.file).toBe('broken.csv');
    await page.close();
  });

  it('asks of a log what its clock does not say, and of a file in our own form nothing', async () => {
    const { page, complaints, server } = await open();
    await choose(page, 'bus.log.gz');
    await page.getByText('To check: No vehicle has the VIN').waitFor();
    expect(await page.getByText('has the check digit 5').count()).toBe(1);
    await page.getByText('Lacking: start is needed: the clock of the log began at 0').waitFor();
    await page.getByLabel(/^Its clock stood at 0/).fill('2026-02-03T06:00:00');
    await page.getByLabel('Length of a window, s').fill('5');
    await inSight(page).getByText('All 105 windows looked at would be stored.').waitFor();
    await press(page, 'Store the file');
    await page.getByText('403 readings stored').waitFor();
    expect(server.deliveries).toEqual([{ file: 'bus.log.gz', start: '2026-02-03T06:00:00Z', window_s: '5' }]);

    await page.getByRole('button', { name: 'Take out bus.log.gz' }).click();
    await choose(page, 'own.csv');
    await page.getByText('in our own form').last().waitFor();
    await page.getByRole('heading', { name: '4 Store' }).waitFor();
    await press(page, 'Store the file');
    await expect.poll(() => server.deliveries.at(-1)).toEqual({ file: 'own.csv', window_s: '5' });
    expect(complaints).toEqual([]);
    await page.close();
  });
});
