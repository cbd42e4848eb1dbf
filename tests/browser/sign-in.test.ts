import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { fixturePassword, makeAccess, oneTimeToken } from './fixtures/access-fixture.ts';
import { expectToFit, headOf, openAccess, pathOf } from './open-access.ts';
import { origin } from './open-page.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const email = (page: Page) => page.getByLabel('E-mail', { exact: true });
const password = (page: Page) => page.getByLabel('Password', { exact: true });
const firstRow = (page: Page) => page.locator('[data-index="0"] [data-row-button]');
const nobody = (more = {}) => makeAccess({ role: null, ...more });

describe('the sign-in', () => {
  it.each([
    ['demo', 390, 'light'],
    ['demo', 1280, 'dark'],
    ['company', 1920, 'light'],
    ['company', 390, 'dark'],
    ['first', 390, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits: %s at %i px, %s', async (kind, width, colorScheme) => {
    const access = nobody({ [kind]: true });
    const { page, complaints } = await openAccess(browser, '/sign-in', { access, width, colorScheme });
    await headOf(page, kind === 'first' ? 'No account yet' : 'Sign in').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('stands in the place of what was asked for, by keys alone, and gives it way', async () => {
    const { page, calls, complaints } = await openAccess(browser, '/?q=B-1&grade=hold', { access: nobody() });
    await headOf(page, 'Sign in').waitFor();
    expect(calls).toEqual(['GET /api/session']);
    await expect.poll(() => email(page).evaluate((input) => input === document.activeElement)).toBe(true);
    await page.keyboard.type('Maren.Oduya@harrow.example');
    await page.keyboard.press('Tab');
    await page.keyboard.type(fixturePassword);
    await page.keyboard.press('Enter');
    await headOf(page, 'Inspection list').waitFor();
    expect(new URL(page.url()).search).toBe('?q=B-1&grade=hold');
    expect(calls).not.toContain('GET /api/people');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('lets a newcomer into the demo with one press', async () => {
    const { page, complaints } = await openAccess(browser, '/', { access: nobody({ demo: true }) });
    await page.getByRole('button', { name: 'Sign in as Demo planner' }).click();
    await firstRow(page).waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says that e-mail or password is wrong, and lets try again at once', async () => {
    const { page } = await openAccess(browser, '/sign-in', { access: nobody() });
    await email(page).fill('maren.oduya@harrow.example');
    await password(page).fill('wrong');
    await page.keyboard.press('Enter');
    await page.getByRole('alert').getByText('E-mail or password is wrong.').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expect.poll(() => password(page).evaluate((input) => input === document.activeElement)).toBe(true);
    await page.keyboard.type(fixturePassword);
    await page.keyboard.press('Enter');
    await firstRow(page).waitFor();
    expect(pathOf(page)).toBe('/');
    await page.close();
  });

  it('says that the account is locked, and for how long', async () => {
    const access = nobody();
    access.lockedForS = 840;
    const { page } = await openAccess(browser, '/sign-in', { access });
    await email(page).fill('maren.oduya@harrow.example');
    await password(page).fill(fixturePassword);
    await page.getByRole('button', { name: 'Sign in', exact: true }).click();
    await page.getByText('Try again in 14 minutes, or ask an admin to unlock your account').waitFor();
    await page.close();
  });

  it.each([
    ['/platforms', '/platforms'],
    ['//elsewhere.example/', '/'],
    ['https://elsewhere.example/', '/'],
  ])('leads to %s only where that is its own', async (to, landed) => {
    const { page } = await openAccess(browser, `/sign-in?to=${encodeURIComponent(to)}`, { access: nobody() });
    await email(page).fill('maren.oduya@harrow.example');
    await password(page).fill(fixturePassword);
    await page.keyboard.press('Enter');
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    await expect.poll(() => page.url()).toBe(`${origin}${landed}`);
    await page.close();
  });

  it('goes to the company with where to come back to', async () => {
    const { page } = await openAccess(browser, '/platforms?x=1', { access: nobody({ company: true }) });
    await page.getByRole('button', { name: 'Sign in through Harrow Transit' }).click();
    await expect.poll(() => page.url()).toBe(`${origin}/company?to=/platforms?x=1`);
    await page.close();
  });

  it.each([
    ['unknown', 'no account here has your e-mail address'],
    ['closed', 'Your account here is closed'],
    ['failed', 'did not come to an end'],
  ])('says why the company could not sign somebody in: %s', async (reason, words) => {
    const access = nobody({ company: true });
    const { page } = await openAccess(browser, `/sign-in?company=${reason}`, { access });
    await page.getByRole('alert').getByText(words).waitFor();
    await page.close();
  });

  it('shows the password when its owner wants to read it', async () => {
    const { page } = await openAccess(browser, '/sign-in', { access: nobody() });
    await password(page).fill('secret words');
    const show = page.getByRole('button', { name: 'Show password' });
    expect(await password(page).getAttribute('type')).toBe('password');
    await show.press('Enter');
    expect(await password(page).getAttribute('type')).toBe('text');
    await page.getByRole('button', { name: 'Hide password' }).waitFor();
    expect(await password(page).getAttribute('autocomplete')).toBe('current-password');
    expect(await email(page).getAttribute('autocomplete')).toBe('username');
    await page.close();
  });

  it('says that the server does not answer, and asks again', async () => {
    const { page } = await openAccess(browser, '/sign-in', { access: nobody() });
    await headOf(page, 'Sign in').waitFor();
    let isDown = true;
    await page.route(`${origin}/api/session`, (route) =>
      isDown ? route.fulfill({ status: 500, body: 'no' }) : route.fallback(),
    );
    await page.goto(`${origin}/`);
    await page.getByText('The server answered 500').waitFor();
    isDown = false;
    await page.getByRole('button', { name: 'Try again' }).click();
    await headOf(page, 'Sign in').waitFor();
    await page.close();
  });
});

describe('a session', () => {
  it('that has ended brings the sign-in, says so, and keeps the address', async () => {
    const { page, access } = await openAccess(browser, '/?grade=hold');
    await firstRow(page).waitFor();
    access.session = { ...access.session, person: null };
    await page.getByRole('link', { name: 'Platforms' }).click();
    await page.getByText('Your session has ended').waitFor();
    expect(pathOf(page)).toBe('/platforms');
    await email(page).fill('maren.oduya@harrow.example');
    await password(page).fill(fixturePassword);
    await page.keyboard.press('Enter');
    await headOf(page, 'Platforms').waitFor();
    expect(pathOf(page)).toBe('/platforms');
    await page.close();
  });

  it('that the person ends leaves nothing to see for whoever comes next', async () => {
    const access = makeAccess({ demo: true });
    const { page, calls, complaints } = await openAccess(browser, '/', { access });
    await firstRow(page).waitFor();
    await page.locator('summary', { hasText: 'Maren Oduya' }).press('Enter');
    await page.getByRole('button', { name: 'Sign out' }).press('Enter');
    await page.getByText('You are signed out on this device.').waitFor();
    expect(pathOf(page)).toBe('/sign-in');
    const before = calls.filter((call) => call === 'GET /api/ranking').length;
    await page.getByRole('button', { name: 'Sign in as Demo shop' }).click();
    await headOf(page, 'Packets').waitFor();
    await page.getByRole('link', { name: 'Sent to you' }).click();
    await headOf(page, 'Sent to you').waitFor();
    await firstRow(page).waitFor();
    // Each answer is asked for anew: none of the planner's is shown to the shop.
    expect(calls.filter((call) => call === 'GET /api/ranking').length).toBeGreaterThan(before);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('that became another person’s beside it shows that person’s screens', async () => {
    const { page, access, calls } = await openAccess(browser, '/');
    await firstRow(page).waitFor();
    const before = calls.filter((call) => call === 'GET /api/ranking').length;
    access.session = makeAccess({ role: 'shop' }).session;
    await page.evaluate(() => document.dispatchEvent(new Event('visibilitychange', { bubbles: true })));
    await headOf(page, 'Sent to you').waitFor();
    await expect
      .poll(() => calls.filter((call) => call === 'GET /api/ranking').length)
      .toBeGreaterThan(before);
    await page.close();
  });
});

describe('the screens of a role', () => {
  it.each([
    ['planner', ['Inspection list', 'This week', 'Bay plan', 'Packets', 'Platforms', 'Analysis', 'Intake']],
    ['analyst', ['Inspection list', 'This week', 'Bay plan', 'Packets', 'Platforms', 'Analysis']],
    ['shop', ['Packets', 'Sent to you']],
    [
      'admin',
      ['Inspection list', 'This week', 'Bay plan', 'Packets', 'Platforms', 'Analysis', 'Intake', 'Settings'],
    ],
  ] as const)('are those that the %s may open', async (role, names) => {
    const { page } = await openAccess(browser, '/', { access: makeAccess({ role }) });
    const links = page.getByRole('navigation', { name: 'Screens' }).getByRole('link');
    await links.first().waitFor();
    expect(await links.allTextContents()).toEqual(names);
    await page.close();
  });

  it.each([
    ['/settings', 'planner', 'Settings are for admins'],
    ['/settings/keys', 'analyst', 'Settings are for admins'],
    ['/platforms', 'shop', 'Platforms are for planner, analyst and admin'],
  ] as const)('refuse %s to the %s in plain words', async (path, role, words) => {
    const { page, calls, complaints } = await openAccess(browser, path, { access: makeAccess({ role }) });
    await page.getByText(words).waitFor();
    expect(calls.filter((call) => /people|keys|changes|movement/.test(call))).toEqual([]);
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('a one-time address', () => {
  const address = `/welcome#${oneTimeToken}`;

  it.each([
    ['invitation', 390, 'light'],
    ['first_admin', 1280, 'dark'],
    ['reset', 1920, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits: %s at %i px, %s', async (purpose, width, colorScheme) => {
    const access = nobody({ purpose, first: purpose === 'first_admin' });
    const { page, complaints } = await openAccess(browser, address, { access, width, colorScheme });
    await page.getByRole('button', { name: 'Set the password and sign in' }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('lets an invited person correct the name, holds to the rule, and signs in', async () => {
    const { page, access, complaints } = await openAccess(browser, address, {
      access: nobody({ purpose: 'invitation' }),
    });
    await page.getByText('It works once, until 7 Mar 2026, 08:30.').waitFor();
    const username = page.locator('input[autocomplete=username]');
    expect(await username.inputValue()).toBe('perrin.quill@harrow.example');
    expect(await username.isVisible()).toBe(false);
    await page.getByLabel('Your name').fill('Perrin Quill-Marsh');
    await password(page).fill('too short');
    await page.keyboard.press('Enter');
    await page.getByText('It has 9 characters; at least 12 are needed.').waitFor();
    expect(await password(page).getAttribute('aria-invalid')).toBe('true');
    expect(await findViolations(page)).toEqual([]);
    await password(page).fill('long enough for anybody');
    await page.keyboard.press('Enter');
    await page.getByRole('navigation', { name: 'Screens' }).waitFor();
    expect(page.url()).toBe(`${origin}/`);
    expect(access.session.person?.name).toBe('Perrin Quill-Marsh');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('makes the first admin', async () => {
    const { page, access } = await openAccess(browser, address, {
      access: nobody({ purpose: 'first_admin', first: true }),
    });
    await page.getByLabel('Your name').fill('Maren Oduya');
    await email(page).fill('maren@harrow.example');
    await password(page).fill('long enough for anybody');
    await page.keyboard.press('Enter');
    await page.getByRole('link', { name: 'Settings' }).waitFor();
    expect(access.session.person?.email).toBe('maren@harrow.example');
    await page.close();
  });

  it('that was used says so, and whom to ask', async () => {
    const { page } = await openAccess(browser, address, { access: nobody() });
    await headOf(page, 'This address no longer works').waitFor();
    await page.getByText('ask whoever gave it to you').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.close();
  });

  it('that is used by somebody else meanwhile says so too', async () => {
    const access = nobody({ purpose: 'reset' });
    const { page } = await openAccess(browser, address, { access });
    await page.getByLabel('New password', { exact: true }).fill('long enough for anybody');
    access.oneTime = null;
    await page.keyboard.press('Enter');
    await headOf(page, 'This address no longer works').waitFor();
    await page.close();
  });

  it('without its long part is not complete', async () => {
    const { page, calls } = await openAccess(browser, '/welcome', { access: nobody() });
    await headOf(page, 'The address is not complete').waitFor();
    expect(calls).not.toContain('POST /api/one-time');
    await page.close();
  });

  it('tells whoever is signed in that somebody else will be', async () => {
    const access = makeAccess({ role: 'admin', purpose: 'invitation' });
    const { page } = await openAccess(browser, address, { access });
    await page.getByText('In this browser Maren Oduya is signed in.').waitFor();
    await page.close();
  });
});
