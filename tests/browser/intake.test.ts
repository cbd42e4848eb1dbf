import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { serveIntake } from './fixtures/intake-server.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';
import { origin } from './open-page.ts';

let browser: Browser;
beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

interface Options {
  width?: number;
  colorScheme?: 'light' | 'dark';
  isEmpty?: boolean;
}

/** Opens another screen first, so that the calls of the intake are answered from the first one on. */
async function open(path: string, { isEmpty = false, ...options }: Options = {}) {
  const opened = await openAccess(browser, '/account', options);
  const server = await serveIntake(opened.page, { isEmpty });
  await opened.page.goto(origin + path);
  return { ...opened, server };
}

const duty = 'duty_pct must be at most 100 %';
const ofDuty = `/intake/refused?fault=${encodeURIComponent(duty)}`;

const screens = [
  ['/intake/deliveries', 'Deliveries', 'All refused lines|telemetry of the coast depot 1.csv'],
  [ofDuty, 'Refused lines', 'All 3 by a rule'],
  ['/intake/gateways', 'Gateways', 'has brought nothing since'],
  ['/intake/vehicles', 'Vehicles to complete', 'Odometer questions'],
] as const;

describe.each(screens)('%s', (path, name, words) => {
  it.each([
    [390, 'dark'],
    [1280, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await open(path, { width, colorScheme });
    await headOf(page, name).waitFor();
    await page.getByText(new RegExp(words)).first().waitFor();
    await expect
      .poll(() => page.locator('main svg text').count())
      .toBeGreaterThanOrEqual(/deliv|gatew/.test(path) ? 1 : 0);
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says what would be here while nothing is', async () => {
    const { page, complaints } = await open(path, { isEmpty: true });
    await page
      .getByText(/Nothing has come in yet|No line waits|No gateway has delivered yet|Nothing is missing/)
      .waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });
});

it('begins with the deliveries, opens one in place and leads to its refused lines', async () => {
  const { page } = await open('/intake');
  await headOf(page, 'Deliveries').waitFor();
  await page.getByLabel('60 days').check();
  await expect.poll(() => page.url()).toContain('span=days');
  const [first] = await page.getByRole('button', { expanded: false }).filter({ hasText: /2026/ }).all();
  await first?.press('Enter');
  await page.getByText('4,000 received: 3,900 stored, 96 there already, 4 refused').waitFor();
  await page.getByText('the fields as JSON names them').waitFor();
  expect(page.url()).toContain('open=3d5e0b6e');
  await page.getByRole('link', { name: '4 still open of 4 refused lines' }).press('Enter');
  await headOf(page, 'Refused lines').waitFor();
  await page.getByText('Only of one delivery').waitFor();
  await page.close();
});

it('takes lines one by one by keyboard: what is still wrong is said, then the next line is open', async () => {
  const { page, server, complaints } = await open('/intake/refused');
  await page.getByRole('link', { name: duty }).press('Enter');
  await page.getByRole('heading', { name: duty }).waitFor();
  expect(await page.locator('mark').first().textContent()).toBe('"duty_pct":255');
  await page.getByRole('button', { name: 'Correct line 17' }).press('Enter');
  const field = page.getByLabel('The line, read as its delivery was');
  await expect.poll(() => field.evaluate((node) => node === document.activeElement)).toBe(true);
  await page.getByRole('button', { name: 'Let in, next' }).press('Enter');
  await page.getByRole('alert').getByText(duty).waitFor();
  await field.fill(server.lines[0]?.raw.replace('255', '85') ?? '');
  await page.getByRole('button', { name: 'Let in, next' }).press('Enter');
  await expect.poll(() => page.url()).toContain('line=2');
  await expect.poll(() => field.inputValue()).toContain('255');
  await page.getByRole('button', { name: 'Lay aside', exact: true }).press('Enter');
  await expect.poll(() => page.url()).toContain('line=3');
  expect(server.lines.map(({ state }) => state)).toEqual(['let_in', 'laid_aside', 'open', 'open']);
  await page.getByLabel('laid aside').check();
  await page.getByRole('button', { name: 'Open it again' }).press('Enter');
  await expect.poll(() => server.lines[1]?.state).toBe('open');
  expect(complaints.filter((one) => !one.includes('400'))).toEqual([]);
  await page.close();
});

it('tries a rule before it acts, and says what stays open', async () => {
  const { page, server } = await open(ofDuty);
  await page.getByLabel('What to do').selectOption('reckon');
  await page.getByLabel('Times').fill('0,4');
  await page.getByRole('button', { name: 'Try it' }).press('Enter');
  await page.getByText('2 of 3 would go in.').waitFor();
  await page.getByText('1 would stay open: slip_rpm is missing (1).').waitFor();
  expect(server.lines.every(({ state }) => state === 'open')).toBe(true);
  await page.getByRole('button', { name: 'Let 2 in' }).press('Enter');
  await page.getByText('2 went in: 2 stored, 0 there already.').waitFor();
  const rule = { kind: 'reckon', field: 'duty_pct', times: 0.4, plus: 0 };
  expect(server.changes).toEqual([
    { fault: duty, rule, dry_run: true },
    { fault: duty, rule, dry_run: false },
  ]);
  await page.close();
});

it('completes several vehicles at once and takes the answer to an odometer', async () => {
  const { page, server } = await open('/intake/vehicles');
  await page.getByLabel('Take N-0001').check();
  await page.getByLabel('Take N-0002').check();
  await page.getByLabel('Depot').selectOption({ index: 1 });
  await page.getByRole('button', { name: 'Save 2' }).press('Enter');
  await page.getByText('Saved. 2 changed.').waitFor();
  const depot = await page.getByLabel('Depot').inputValue();
  expect(server.changes[0]).toEqual([
    { id: 'N-0001', depot },
    { id: 'N-0002', depot },
  ]);
  await page.getByText(/jumped from 312,407\skm to 12\skm/).waitFor();
  await page.getByLabel('Note on B-1207').fill('New dashboard.');
  await page.getByRole('button', { name: 'It was changed or set' }).press('Enter');
  await page.getByText('No odometer has jumped without an explanation.').waitFor();
  await page.getByLabel('answered').check();
  await page.getByText(/Maren Oduya says on .*the instrument was changed or set\. New dashboard\./).waitFor();
  await page.close();
});
