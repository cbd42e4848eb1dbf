import { readFile } from 'node:fs/promises';
import { parse } from 'csv-parse/sync';
import { imageSize } from 'image-size';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { plainEnd } from '#tests/helpers/send-plain-fleet.ts';
import { startApp, type TestApp } from '#tests/helpers/start-app.ts';
import { findViolations } from './find-violations.ts';
import { expectToFit, pathOf } from './open-access.ts';
import { openServed } from './open-served.ts';

let app: TestApp;
let browser: Browser;

// As it is served, with its headers: reading beside the page and pictures must work under them.
beforeAll(async () => {
  await ensureScreens();
  browser = await launchBrowser();
  app = await startApp({}, plainEnd);
});
afterAll(async () => {
  await browser?.close();
  await app?.stop();
});

const open = (path: string, options: { width?: number; colorScheme?: 'light' | 'dark' } = {}) =>
  openServed(browser, app, path, { as: 'analyst', ...options });

const focused = (page: Page) => page.locator(':focus').first();

const field = (page: Page) => page.getByRole('textbox', { name: /^Paste a table/ });

const paste = (page: Page, text: string) =>
  field(page).evaluate((element, pasted) => {
    const clipboardData = new DataTransfer();
    clipboardData.setData('text/plain', pasted);
    element.dispatchEvent(new ClipboardEvent('paste', { clipboardData, bubbles: true, cancelable: true }));
  }, text);

const areDrawn = async (page: Page, charts: number) => {
  await expect.poll(() => page.locator('[data-chart="ready"] svg text').first().isVisible()).toBe(true);
  await expect.poll(() => page.locator('[data-chart="ready"]').count()).toBe(charts);
};

async function download(page: Page, press: () => Promise<void>): Promise<{ name: string; bytes: Buffer }> {
  const [file] = await Promise.all([page.waitForEvent('download'), press()]);
  return { name: file.suggestedFilename(), bytes: await readFile(await file.path()) };
}

describe('the workbench', () => {
  it.each([
    [390, 'light'],
    [1280, 'dark'],
  ] as const)(
    'passes WCAG 2.2 AA and fits at %i px, %s, empty and with an example',
    async (width, colorScheme) => {
      const { page, complaints } = await open('/analysis/workbench', { width, colorScheme });
      await field(page).waitFor();
      expect(await findViolations(page)).toEqual([]);
      await page.getByRole('link', { name: /38 vehicle shock absorbers/ }).click();
      await page.getByText('11 of 38 lives failed.').waitFor();
      await areDrawn(page, 4);
      expect(new URL(page.url()).search).toBe('?example=shock-absorbers');
      // Meeker and Escobar: scale exp(10.23), shape 1 / 0.3164.
      const rows = await page.getByRole('row', { name: /^Weibull (shape|scale) / }).allInnerTexts();
      expect(rows.map((row) => row.split(/\s+/).at(-1))).toEqual(['3.1605', '27,719']);
      await page.keyboard.press('n');
      expect(await findViolations(page)).toEqual([]);
      await expectToFit(page);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );

  it('counts rows that cannot be used, leaves them out when told, keeps the table, and asks before it is lost', async () => {
    const { page, complaints } = await open('/analysis/workbench');
    const good = Array.from({ length: 20 }, (_, i) => `${i * 500};${i < 9 ? 11 + (i % 3) : i * 2},5`);
    await field(page).focus();
    await paste(page, ['km;slip', ...good, '10500;none', ';3', '11500;broken'].join('\r\n'));
    await page.getByText('3 rows cannot be used').waitFor();
    expect(await focused(page).textContent()).toBe('pasted table');
    await page.getByText("Line 24: slip is 'broken', which is no number").waitFor();
    expect(await page.locator('[data-chart]').count()).toBe(0);
    await page.getByRole('button', { name: 'Go on with the 20 good rows' }).press('Enter');
    await expect.poll(() => focused(page).textContent()).toMatch(/^3 rows cannot be used, 20 rows can\. /);
    await areDrawn(page, 2);
    await page.getByText(/^It rises: /).waitFor();

    await page.getByRole('link', { name: 'Lives', exact: true }).click();
    await page.getByRole('dialog').getByRole('button', { name: 'Stay here' }).click();
    expect(pathOf(page)).toBe('/analysis/workbench');
    await page.getByLabel('Keep it for yourself as').fill('Bench A');
    await page.keyboard.press('Enter');
    await page.getByText('Kept as Bench A.').waitFor();
    expect(await focused(page).textContent()).toBe('pasted table');
    await page.reload();
    await page.getByRole('link', { name: 'Bench A' }).click();
    await page.getByText('3 rows cannot be used').waitFor();
    await page.getByLabel('x: where').selectOption('number of the row');
    await expect.poll(() => new URL(page.url()).searchParams.get('x')).toBe('');
    await page.getByText('2 rows cannot be used').waitFor();
    await page.getByRole('button', { name: 'Delete Bench A' }).click();
    await page.getByRole('button', { name: 'Delete it' }).click();
    await field(page).waitFor();
    expect(await page.getByRole('link', { name: 'Bench A' }).count()).toBe(0);
    await expect.poll(() => focused(page).getAttribute('id')).toBe('content');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('shows what can be shown of two points, and hazard ratios of exposures that are numbers', async () => {
    const { page, complaints } = await open('/analysis/workbench');
    await field(page).focus();
    await paste(page, 'km,slip\n100,12\n200,15');
    await page.getByText('A trend takes at least 3 points, and most figures more; there are 2.').waitFor();
    await areDrawn(page, 1);
    await page.getByRole('button', { name: 'Another table' }).click();
    const rows = Array.from({ length: 40 }, (_, i) => {
      const heat = (i * 7) % 10;
      return `${900 - 60 * heat + ((i * 53) % 400)},${i % 3 === 0 ? 'running' : 'failed'},${heat},${i % 2 ? 'red' : 'blue'}`;
    });
    await paste(page, ['km,status,heat,paint', ...rows].join('\n'));
    await page.getByRole('group', { name: /^Exposures/ }).waitFor();
    expect(
      await page
        .getByRole('group', { name: /^Exposures/ })
        .getByRole('checkbox')
        .count(),
    ).toBe(1);
    await page.getByRole('checkbox', { name: 'heat' }).check();
    await page
      .getByRole('img', { name: /^Hazard ratios\. heat, \d more: fails [\d.]+ times as often/ })
      .waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('answers ten million rows by their size, pasted or dropped, and nothing hangs', async () => {
    const { page, complaints } = await open('/analysis/workbench');
    await field(page).waitFor();
    for (const kind of ['paste', 'drop']) {
      const ms = await page.evaluate((way) => {
        const text = '1,2\n'.repeat(10_000_000);
        const field = document.querySelector('textarea');
        const data = new DataTransfer();
        if (way === 'paste') data.setData('text/plain', text);
        else data.items.add(new File([text], 'huge.csv', { type: 'text/csv' }));
        const options = { bubbles: true, cancelable: true };
        const began = performance.now();
        field?.dispatchEvent(
          way === 'paste'
            ? new ClipboardEvent('paste', { ...options, clipboardData: data })
            : new DragEvent('drop', { ...options, dataTransfer: data }),
        );
        return performance.now() - began;
      }, kind);
      await page
        .getByRole('alert')
        .getByText(/It is 39 MiB; at most 32 MiB and 100,000 rows/)
        .waitFor();
      expect(ms).toBeLessThan(1500);
    }
    await paste(page, `x,y\n${'1,2\n'.repeat(100_001)}`);
    await page.getByText('It has more than 100,000 rows').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('what is taken out', () => {
  it('is an SVG that stands alone and a PNG of twice its size, by keys, and tables as CSV', async () => {
    const { page, complaints } = await open('/analysis/workbench?example=sulfate', { colorScheme: 'dark' });
    await areDrawn(page, 2);
    const chart = page.locator('[data-chart]').first();
    const take = async (kind: 'SVG' | 'PNG') => {
      await chart.locator('summary').press('Enter');
      return download(page, () => chart.getByRole('button', { name: kind, exact: true }).press('Enter'));
    };
    const { name, bytes } = await take('SVG');
    expect(name).toBe('slipdrift-workbench-sulfate-ppm-against-year-2026-03-04.svg');
    // Where it is opened elsewhere: a page of its own, without the headers of this one.
    const elsewhere = await browser.newPage();
    const read = await elsewhere.evaluate((text) => {
      const parsed = new DOMParser().parseFromString(text, 'image/svg+xml');
      const root = parsed.documentElement;
      return {
        isBroken: parsed.querySelector('parsererror') !== null,
        width: Number(root.getAttribute('width')),
        height: Number(root.getAttribute('height')),
        texts: [...parsed.querySelectorAll('text')].map((one) => one.textContent),
        outside: text.match(/(href|src)="(?!#)[^"]*"|url\((?!data:|#)[^)]*\)/g),
        ground: parsed.querySelector('rect')?.getAttribute('fill'),
      };
    }, bytes.toString('utf8'));
    expect(read).toMatchObject({ isBroken: false, outside: null, ground: '#f8f5ee' });
    expect(read.texts).toEqual(
      expect.arrayContaining([
        'sulfate ppm against year',
        'year',
        'Theil-Sen',
        'Slipdrift, Workbench, 4 Mar 2026',
        'Sulfate in a well, 1989 to 1996',
      ]),
    );
    const png = await take('PNG');
    expect(png.name).toBe(name.replace('.svg', '.png'));
    expect(imageSize(png.bytes)).toMatchObject({
      type: 'png',
      width: 2 * read.width,
      height: 2 * read.height,
    });

    await chart.getByRole('button', { name: 'Numbers' }).click();
    const points = await download(page, () => chart.getByRole('button', { name: 'CSV of Points' }).click());
    expect(parse(points.bytes)).toHaveLength(24);
    expect(parse(points.bytes).slice(0, 2)).toEqual([
      ['year', 'sulfate ppm'],
      ['89.6', '480'],
    ]);
    const figures = await download(page, () =>
      page.getByRole('button', { name: /^Download .* All figures as CSV/ }).click(),
    );
    const slope = (parse(figures.bytes) as string[][]).find(
      ([part, one]) => part === 'Theil-Sen' && one === 'slope',
    );
    // USEPA Unified Guidance, example 17-6: 26.667 ppm a year.
    expect(slope?.[2]).toBe('26.667');
    expect(complaints).toEqual([]);
    await page.close();
  });
});
