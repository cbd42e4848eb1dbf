import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeAccess } from './fixtures/access-fixture.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const open = (path: string, more: { width?: number; colorScheme?: 'light' | 'dark' } = {}) =>
  openAccess(browser, path, { access: makeAccess({ role: 'admin' }), ...more });
const logOf = (page: Page) => page.getByRole('region', { name: 'Log of Yard gate' });

it.each([
  ['/settings/webhooks?open=3', 390, 'light'],
  ['/settings/webhooks?open=2', 1280, 'dark'],
  ['/settings/webhooks?open=3&page=2', 1920, 'light'],
] as const)('webhooks pass WCAG 2.2 AA and fit: %s at %i px, %s', async (path, width, colorScheme) => {
  const { page, complaints } = await open(path, { width, colorScheme });
  await page.getByRole('heading', { name: 'Log' }).waitFor();
  await page.waitForLoadState('networkidle');
  expect(await findViolations(page)).toEqual([]);
  await expectToFit(page);
  expect(complaints).toEqual([]);
  await page.close();
});

it('a webhook is made by keys alone, and its secret is shown once', async () => {
  const { page, access, complaints } = await open('/settings/webhooks');
  await headOf(page, 'Webhooks').waitFor();
  await page.getByRole('button', { name: 'New webhook' }).press('Enter');
  await page.getByLabel('Name').pressSequentially('Gate house');
  await page.keyboard.press('Tab');
  await page.keyboard.type('https://gate.example/told');
  await page.getByRole('checkbox', { name: /^watch/ }).press('Space');
  await page.getByRole('button', { name: 'Make the webhook' }).press('Enter');
  const note = page.getByRole('region', { name: 'New webhook' });
  await note.waitFor();
  expect(await note.getByLabel('Secret').inputValue()).toBe('a-secret-that-is-shown-once');
  expect(access.hooks.list[0]).toMatchObject({
    name: 'Gate house',
    url: 'https://gate.example/told',
    grades: ['hold', 'book'],
  });
  await note.getByRole('button', { name: 'Done' }).press('Enter');
  expect(await page.getByText('a-secret').count()).toBe(0);
  expect(complaints).toEqual([]);
  await page.close();
});

it('its log says how each event went, tries one again, and goes by pages in the address', async () => {
  const { page, access, complaints } = await open('/settings/webhooks');
  await page.getByRole('button', { name: /Yard gate/ }).press('Enter');
  await logOf(page).getByText('It answered 503: Maintenance until noon').waitFor();
  expect(new URL(page.url()).searchParams.get('open')).toMatch(/3/);
  expect(
    await logOf(page)
      .getByText(/tried 3 times, again at/)
      .count(),
  ).toBe(1);
  expect(await logOf(page).getByText('given up, tried 14 times').count()).toBe(1);
  await logOf(page)
    .getByRole('button', { name: /HT-1204/ })
    .press('Enter');
  await logOf(page).getByText('confirmed, tried 15 times').waitFor();
  expect(access.hooks.posts.get(3)?.[4]).toMatchObject({ state: 'given' });
  await logOf(page).getByRole('link', { name: 'Older events' }).press('Enter');
  await logOf(page).getByText('26 to 32 of 32').waitFor();
  expect(new URL(page.url()).searchParams.get('page')).toBe('2');
  await page.goBack();
  await logOf(page).getByText('1 to 25 of 32').waitFor();
  expect(complaints).toEqual([]);
  await page.close();
});

it('a trial tells how it went; a pause and an end are asked of the server', async () => {
  const { page, calls, complaints } = await open('/settings/webhooks?open=3');
  await page.getByRole('button', { name: 'Send a trial event' }).press('Enter');
  await page.getByText('The trial was not confirmed. It answered 503: Maintenance until noon.').waitFor();
  await page.getByRole('button', { name: 'Pause it' }).press('Enter');
  await page.getByRole('button', { name: 'Let it go on' }).waitFor();
  await page.getByRole('button', { name: 'End it' }).press('Enter');
  await page.getByRole('dialog').getByRole('button', { name: 'End the webhook' }).press('Enter');
  await page.getByRole('button', { name: 'Let it go on' }).waitFor({ state: 'detached' });
  expect(calls.filter((call) => !call.startsWith('GET'))).toEqual([
    'POST /api/webhooks/3/trial',
    'PATCH /api/webhooks/3',
    'DELETE /api/webhooks/3',
  ]);
  expect(complaints).toEqual([]);
  await page.close();
});
