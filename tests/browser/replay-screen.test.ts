import { readFile } from 'node:fs/promises';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Replay, ReplayLine } from '#server/contract/replay.ts';
import { usualThresholds } from '#server/contract/settings.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { makeLine, makeReplay, makeResult } from './fixtures/replay-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const path = '/analysis/replay';

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  replays?: Replay[];
}

/** A server that keeps replays: a new one runs while it is asked for three times, and is then done. */
async function open(
  address: string,
  { width = 1280, colorScheme = 'light', replays = [makeReplay()] }: Options = {},
) {
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme,
    hasTouch: width < 500,
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    if (['error', 'warning'].includes(message.type())) complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  await serveFixture(page, makeRows(4));
  const kept = new Map(replays.map((one) => [one.id, one]));
  const asked: unknown[] = [];
  let looks = 0;
  const toLine = ({ result, ...rest }: Replay): ReplayLine =>
    makeLine({ ...rest, score: result?.scores[0] ?? null });
  await page.route(
    (url) => url.pathname.startsWith('/api/analysis/replay'),
    (route) => {
      const { pathname } = new URL(route.request().url());
      const id = Number(pathname.split('/')[4] ?? 0);
      const one = kept.get(id);
      const method = route.request().method();
      if (method === 'POST') {
        asked.push(route.request().postDataJSON());
        const progress = { done: 0, of: 40_000 };
        const started = makeReplay({
          id: 9,
          state: 'running',
          result: null,
          ended_at: null,
          seconds: null,
          progress,
        });
        kept.set(9, started);
        return route.fulfill({ status: 202, json: started });
      }
      if (method === 'DELETE') {
        if (one?.state === 'running') kept.set(id, { ...one, state: 'cancelled' });
        else kept.delete(id);
        return route.fulfill({ status: 204 });
      }
      if (id === 0) return route.fulfill({ json: { replays: [...kept.values()].map(toLine) } });
      if (one === undefined) {
        const problem = {
          title: 'There is no such thing',
          status: 404,
          code: 'not_found',
          detail: '',
          errors: [],
        };
        return route.fulfill({ status: 404, contentType: 'application/problem+json', json: problem });
      }
      if (one.state === 'running') {
        looks += 1;
        kept.set(
          id,
          looks > 3 ? makeReplay({ id }) : { ...one, progress: { done: 9_000 * looks, of: 40_000 } },
        );
      }
      return route.fulfill({ json: one });
    },
  );
  await page.route(`${origin}/api/settings/thresholds`, (route) => route.fulfill({ json: usualThresholds }));
  await page.goto(origin + address);
  return { page, complaints, asked };
}

const areDrawn = (page: Page, n: number) =>
  expect.poll(() => page.locator('[data-chart="ready"] [role="img"] svg').count()).toBe(n);

async function expectSound(page: Page, complaints: readonly string[]): Promise<void> {
  expect(await findViolations(page)).toEqual([]);
  const { scroll, shown } = await page.evaluate(() => ({
    scroll: document.documentElement.scrollWidth,
    shown: document.documentElement.clientWidth,
  }));
  expect(scroll).toBeLessThanOrEqual(shown);
  expect(complaints).toEqual([]);
}

describe('a replay that is done', () => {
  it.each([
    [1920, 'dark'],
    [390, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await open(`${path}?id=7`, { width, colorScheme });
    await areDrawn(page, 4);
    await expectSound(page, complaints);
    await page.close();
  });

  it('says first what the list would have done, and shows what was missed before what was found', async () => {
    const { page } = await open(`${path}?id=7`);
    await page
      .getByText('found 23 of 25 failures, 6,900 km before they came (middle), and missed 2')
      .waitFor();
    await page.getByText('34 were right and 4 needless; 20 were early: the clutch did slip').waitFor();
    await page.getByText('Of 85 to 100 % too few were followed to tell.').waitFor();
    const came = page.getByRole('region', { name: 'What came' });
    const first = came.getByRole('row').nth(1);
    expect(await first.textContent()).toMatch(/^K-323[\s\S]*missed/);
    expect(await first.getByRole('link').getAttribute('href')).toBe('/vehicles/K-323');
    expect(await came.getByRole('row').count()).toBe(13);
    await page.getByRole('button', { name: 'Show all 25' }).press('Enter');
    expect(await came.getByRole('row').count()).toBe(26);
    const files = await page
      .getByRole('link', { name: 'CSV' })
      .evaluateAll((all) => all.map((one) => one.getAttribute('href')));
    expect(files).toEqual(['/api/analysis/replays/7/came.csv', '/api/analysis/replays/7/needless.csv']);
    await page.close();
  });

  it('stands beside another one that the address names, with what differs', async () => {
    const worse = makeResult();
    const scores = worse.scores.map((one) => (one.rule === 'list' ? { ...one, found: 20, missed: 5 } : one));
    const other = makeReplay({ id: 6, result: { ...worse, scores } });
    const { page } = await open(`${path}?id=7`, { replays: [makeReplay(), other] });
    await page.getByText('Replay 7, asked for by').waitFor();
    await page.getByLabel('Which one').selectOption('6');
    await expect.poll(() => new URL(page.url()).search).toBe('?id=7&compare=6');
    const table = page.getByRole('region', { name: 'Two replays' });
    await table.waitFor();
    expect(
      await table
        .getByRole('row', { name: /^found/ })
        .getByRole('cell')
        .allTextContents(),
    ).toEqual(['23', '20', '+3']);
    const [file] = await Promise.all([
      page.waitForEvent('download'),
      page.getByRole('button', { name: 'Download two replays as CSV' }).press('Enter'),
    ]);
    expect(await readFile(await file.path(), 'utf8')).toContain('\r\nfound,23,20,+3\r\n');
    await page.close();
  });

  it('says that nothing came, and draws nothing of it', async () => {
    const scores = makeResult().scores.map((one) => ({
      ...one,
      found: 0,
      missed: 0,
      notice_km: null,
      notice_days: null,
    }));
    const quiet = makeReplay({ result: makeResult({ failures: 0, came: [], scores, needless: [] }) });
    const { page, complaints } = await open(`${path}?id=7`, { replays: [quiet] });
    await page.getByText('Nothing came in this period, so nothing could be found or missed').waitFor();
    await areDrawn(page, 2);
    await expectSound(page, complaints);
    await page.close();
  });
});

describe('a new replay', () => {
  it('is asked for as the form says, followed while it runs, and shown when it is done', async () => {
    const { page, asked, complaints } = await open(path, { replays: [] });
    await page.getByText('Nothing was run again yet').waitFor();
    await page.getByText('Other thresholds and limits to try').click();
    await page.getByLabel('Hold from a chance of, %').fill('30');
    await page.getByLabel('Note').fill('before the winter');
    await expect.poll(() => new URL(page.url()).search).toBe('?hold=30&note=before+the+winter');
    await expectSound(page, complaints);
    await page.getByRole('button', { name: 'Run this period again' }).press('Enter');
    await page.getByText(/^(9|18|27),000 of 40,000 vehicle days/).waitFor();
    expect(new URL(page.url()).search).toBe('?id=9');
    expect(await page.locator(':focus').textContent()).toBe('Replay');
    expect(asked).toHaveLength(1);
    expect(asked[0]).toMatchObject({
      note: 'before the winter',
      thresholds: { hold_chance: 0.3 },
      platforms: [],
    });
    await page.getByText('found 23 of 25 failures').waitFor();
    await page.close();
  });

  it('says at the field what is wrong, and asks for nothing', async () => {
    const { page } = await open(`${path}?from=2025-06-01&to=2025-05-01`);
    await page.getByText('It is before the first day.').waitFor();
    expect(await page.getByRole('button', { name: 'Run this period again' }).isDisabled()).toBe(true);
    await page.close();
  });

  it('is cancelled while it runs', async () => {
    const running = makeReplay({ state: 'running', result: null, progress: { done: 0, of: 0 } });
    const { page } = await open(`${path}?id=7`, { replays: [running] });
    await page.getByText('Reading what was known then').waitFor();
    await page.getByRole('button', { name: 'Cancel this replay' }).press('Enter');
    await page.getByText('This replay was cancelled.').waitFor();
    expect(await page.locator('h2:focus').count()).toBe(1);
    await page.close();
  });
});

it('says why a replay broke off, and that one is not there', async () => {
  const broken = makeReplay({ state: 'failed', result: null, error: 'the program was stopped' });
  const { page } = await open(`${path}?id=7`, { replays: [broken] });
  await page.getByText('This replay broke off. The program was stopped.').waitFor();
  await page.goto(`${origin}${path}?id=5`);
  await page.getByText('No replay has the number 5').waitFor();
  await page.close();
});

it('forgets an earlier one when asked twice', async () => {
  const { page } = await open(path, { width: 390 });
  await page.getByRole('button', { name: 'Forget replay 7' }).click();
  await page.getByRole('dialog').getByRole('button', { name: 'Forget it' }).click();
  await page.getByText('Nothing was run again yet').waitFor();
  await page.close();
});
