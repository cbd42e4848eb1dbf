import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Problem } from '#server/contract/problems.ts';
import { type SetUpFileReply, setUpFileReply } from '#server/contract/set-up-files/set-up-file-reply.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeAccess } from './fixtures/access-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { newPage } from './new-page.ts';
import { origin, serveFixture } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const answer: SetUpFileReply = setUpFileReply.parse({
  kind: 'vehicles',
  dry_run: true,
  lines: 240,
  created: 2,
  changed: 1,
  unchanged: 237,
  changes: [
    {
      line: 2,
      subject: 'vehicle',
      id: 'B-1207',
      action: 'changed',
      fields: [
        { field: 'depot', before: 'north', after: 'south' },
        { field: 'vin', before: '11111111111111112', after: null },
      ],
    },
    ...[3, 4].map((line) => ({
      line,
      subject: 'vehicle',
      id: `V-33${line}`,
      action: 'created',
      fields: [{ field: 'platform', before: null, after: 'van' }],
    })),
    { line: null, subject: 'vehicle', id: 'B-1207', action: 'booking_cancelled', fields: [] },
  ],
  changes_total: 4,
  warnings: [
    { field: 'id', message: 'has sent no reading yet', count: 2, lines: [3, 4] },
    { field: 'vin', message: 'has 3 characters; a VIN has 17.', count: 1, lines: [4] },
  ],
  warnings_total: 2,
});

const problem: Problem = {
  type: 'about:blank',
  title: 'The request is not right',
  status: 400,
  detail: "Line 3: 'depot' 'nowhere' is not known; create the depot first. Nothing was changed.",
  code: 'invalid_request',
  errors: [{ line: 3, field: 'depot', message: "'nowhere' is not known; create the depot first" }],
};

interface Asked {
  kind: string;
  dryRun: string | null;
  text: string;
}

interface Options {
  width?: number;
  dark?: boolean;
  isAdmin?: boolean;
  depots?: string[];
}

async function open(path: string, { width = 1280, dark = false, isAdmin = false, depots }: Options = {}) {
  const page = await newPage(browser, {
    viewport: { width, height: 900 },
    colorScheme: dark ? 'dark' : 'light',
    hasTouch: width < 500,
  });
  const complaints: string[] = [];
  page.on('console', (message) => {
    // A refused file is said to the console by the browser itself.
    if (['error', 'warning'].includes(message.type()) && !message.text().includes('status of 400'))
      complaints.push(message.text());
  });
  page.on('pageerror', (error) => complaints.push(error.message));
  const access = makeAccess({ role: isAdmin ? 'admin' : 'planner', depots: depots ?? null });
  await serveFixture(page, makeRows(4), access);
  const asked: Asked[] = [];
  await page.route(`${origin}/api/set-up/**`, (route) => {
    const address = new URL(route.request().url());
    const text = route.request().postData() ?? '';
    const dryRun = address.searchParams.get('dry_run');
    asked.push({ kind: address.pathname.split('/').at(-1) ?? '', dryRun, text });
    if (text.includes('nowhere'))
      return route.fulfill({ status: 400, json: problem, contentType: 'application/problem+json' });
    return route.fulfill({ json: { ...answer, dry_run: dryRun === 'true' } });
  });
  await page.goto(origin + path);
  await page.getByRole('heading', { level: 1, name: 'Set-up files' }).waitFor();
  return { page, complaints, asked };
}

const choose = (page: Page, text: string) =>
  page
    .locator('input[type=file]')
    .setInputFiles({ name: 'fleet.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });

async function expectToFit(page: Page): Promise<void> {
  const over = await page.evaluate(
    () => document.documentElement.scrollWidth - document.documentElement.clientWidth,
  );
  expect(over).toBeLessThanOrEqual(0);
}

describe('set-up files', () => {
  it.each([
    [390, true],
    [1280, false],
    [1920, true],
  ])('pass WCAG 2.2 AA and fit at %i px, dark %s, with columns, changes and faults', async (width, dark) => {
    const { page, complaints } = await open('/intake/set-up?kind=vehicles', { width, dark });
    await page.getByText('Columns of the file').click();
    await page.getByRole('rowheader', { name: 'platform' }).waitFor();
    await choose(page, 'id,depot\nB-1207,south\n');
    await page.getByText('fleet.csv has 240 lines: 2 vehicles would be created and 1 changed').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    await choose(page, 'id,depot\nB-1207,nowhere\n');
    await page.getByRole('alert').getByText('fleet.csv has 1 fault.').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('try a file at once, say each change before and after, and do what was tried', async () => {
    const { page, asked, complaints } = await open('/intake/set-up');
    const vehicles = page.getByRole('radio', { name: /^Vehicles/ });
    // Depots and platforms, which come first, are not for a planner.
    expect(await vehicles.isChecked()).toBe(true);
    await page.getByRole('radio', { name: /^Converter lives/ }).check();
    await vehicles.check();
    expect(new URL(page.url()).search).toBe('?kind=vehicles');
    const text = 'id,depot,vin\nB-1207,south,-\n';
    await choose(page, text);
    const rows = page.getByRole('region', { name: 'Changes' }).locator('tbody tr');
    await rows.first().waitFor();
    const said = (await rows.allInnerTexts()).map((row) => row.split(/\s*\t\s*/));
    expect(said).toEqual([
      ['2', 'vehicle B-1207', 'depot', 'north', 'south'],
      ['2', 'vehicle B-1207', 'vin', '11111111111111112', '–'],
      ['3', 'vehicle V-333', 'new', '–', 'platform van'],
      ['4', 'vehicle V-334', 'new', '–', 'platform van'],
      ['follows', 'vehicle B-1207', 'booking cancelled', '–', '–'],
    ]);
    await page.getByText('Lines 3, 4: id has sent no reading yet').waitFor();
    expect(asked).toEqual([{ kind: 'vehicles', dryRun: 'true', text }]);
    await page.getByRole('button', { name: 'Do it' }).press('Enter');
    await page.getByRole('heading', { name: '3 Done' }).waitFor();
    await page.getByText('2 vehicles were created and 1 changed; 237 are as on record.').waitFor();
    expect(asked.at(-1)).toEqual({ kind: 'vehicles', dryRun: 'false', text });
    await page.getByRole('link', { name: 'Go on with lives' }).press('Enter');
    await page.getByRole('radio', { name: /^Converter lives/, checked: true }).waitFor();
    expect(await page.getByRole('heading', { name: '3 Done' }).count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('tell a planner why depots and platforms are not for them, and let an admin', async () => {
    const planner = await open('/intake/set-up?kind=platforms');
    await planner.page.getByText('Only an admin sets up platforms').waitFor();
    expect(await planner.page.locator('input[type=file]').count()).toBe(0);
    const template = planner.page.getByRole('link', { name: 'File to begin with' });
    expect(await template.getAttribute('href')).toBe('/api/set-up/platforms/template');
    await planner.page.close();
    const admin = await open('/intake/set-up?kind=platforms', { isAdmin: true });
    await admin.page.locator('input[type=file]').waitFor({ state: 'attached' });
    await admin.page.close();
  });

  it('are all of the intake that a planner of some depots is offered', async () => {
    const { page } = await open('/intake/set-up', { depots: ['north'] });
    const links = page.getByRole('navigation', { name: 'Intake' }).getByRole('link');
    expect(await links.allInnerTexts()).toEqual(['Set-up files']);
    const screens = page.getByRole('navigation', { name: 'Screens' });
    expect(await screens.getByRole('link', { name: 'Intake' }).count()).toBe(0);
    await screens.getByRole('link', { name: 'Set-up files' }).waitFor();
    await page.close();
  });

  it('say where a file is at fault, and offer nothing to do', async () => {
    const { page } = await open('/intake/set-up?kind=vehicles');
    await choose(page, 'id,depot\nB-1207,nowhere\n');
    const faults = page.getByRole('region', { name: 'Faults of the file' }).locator('tbody tr');
    expect(((await faults.allInnerTexts())[0] ?? '').split(/\s*\t\s*/)).toEqual([
      '3',
      'depot',
      "'nowhere' is not known; create the depot first",
    ]);
    expect(await page.getByRole('button', { name: 'Do it' }).count()).toBe(0);
    await page.close();
  });
});
