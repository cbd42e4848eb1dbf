import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { press } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { makeAccess, oneTimeToken } from './fixtures/access-fixture.ts';
import { expectToFit, headOf, openAccess, pathOf } from './open-access.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const admin = (more = {}) => makeAccess({ role: 'admin', ...more });
const lines = (page: Page) => page.locator('tbody tr:not([data-kind])');
const searchOf = (page: Page) => new URL(page.url()).searchParams;
const shown = (page: Page, name: string) => page.getByRole('textbox', { name, exact: true });

describe('settings', () => {
  it.each([
    ['/settings/people?open=p-2', 390, 'light'],
    ['/settings/people?open=p-5', 1280, 'dark'],
    ['/settings/people?open=p-1', 1920, 'light'],
    ['/settings/keys', 390, 'dark'],
    ['/settings/keys', 1280, 'light'],
    ['/settings/changes', 390, 'light'],
    ['/settings/changes?subject=person', 1280, 'dark'],
    ['/settings/changes', 1920, 'light'],
  ] as const)('pass WCAG 2.2 AA and fit: %s at %i px, %s', async (path, width, colorScheme) => {
    const { page, complaints } = await openAccess(browser, path, { access: admin(), width, colorScheme });
    await page.locator('main :is(tbody tr, ol > li)').first().waitFor();
    await page.waitForLoadState('networkidle');
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('begin with the people, and lead to keys and changes by keys alone', async () => {
    const { page, complaints } = await openAccess(browser, '/', { access: admin() });
    await page.getByRole('link', { name: 'Settings' }).press('Enter');
    await headOf(page, 'People').waitFor();
    expect(pathOf(page)).toBe('/settings/people');
    const nav = page.getByRole('navigation', { name: 'Settings' });
    await nav.getByRole('link', { name: 'Keys' }).press('Enter');
    await headOf(page, 'Keys').waitFor();
    await nav.getByRole('link', { name: 'Changes' }).press('Enter');
    await headOf(page, 'Changes').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('people', () => {
  it('are two hundred as well as two, and are found by part of a name', async () => {
    const { page } = await openAccess(browser, '/settings/people', { access: admin({ people: 200 }) });
    await page.getByText('200 people', { exact: true }).waitFor();
    expect(await lines(page).count()).toBe(200);
    await page.getByLabel('Name, e-mail, role or state').fill('quill');
    await page.getByText('25 of 200 people').waitFor();
    expect(searchOf(page).get('q')).toBe('quill');
    await page.getByLabel('Name, e-mail, role or state').fill('nobody of this name');
    await page.getByText('Nobody matches.').waitFor();
    await page.close();
  });

  it('with long names stay in their columns', async () => {
    const access = admin();
    const [first, ...rest] = access.people;
    const name =
      'Wilhelmina Theodosia Featherstonehaugh-Cholmondeley of Lower Brackwater and Upper Brackwater';
    access.people = [{ ...first!, name, email: `${'w'.repeat(64)}@harrow.example` }, ...rest];
    for (const width of [390, 1280]) {
      const { page } = await openAccess(browser, `/settings/people?open=${first!.id}`, { access, width });
      await page.getByText(name).first().waitFor();
      await expectToFit(page);
      await page.close();
    }
  });

  it('are invited with role and depots; the address is shown once, with a button that copies it', async () => {
    const { page, access, complaints } = await openAccess(browser, '/settings/people', { access: admin() });
    await page.context().grantPermissions(['clipboard-read', 'clipboard-write']);
    await page.getByText('12 people').waitFor();
    await press(page, 'Invite somebody');
    await page.keyboard.type('Wren Calloway');
    await page.keyboard.press('Tab');
    await page.keyboard.type('wren@harrow.example');
    await page.getByLabel(/^shop/).check();
    await page.getByLabel('only these').check();
    await press(page, 'Make the one-time address');
    await page.getByText('Choose a depot, or all depots.').waitFor();
    await page.getByLabel('Mossgate').check();
    expect(await findViolations(page)).toEqual([]);
    await press(page, 'Make the one-time address');
    const address = shown(page, 'One-time address');
    expect(await address.inputValue()).toBe(`http://slipdrift.test/welcome#${oneTimeToken}`);
    await page.getByText('It works once, until 7 Mar 2026, 08:30').waitFor();
    await page.getByText('Hand it over in person or by a channel that you trust').waitFor();
    await press(page, 'Copy');
    await page.getByText(/^(Copied\.|Marked: copy it)/).waitFor();
    expect(await findViolations(page)).toEqual([]);
    expect(access.people.at(-1)).toMatchObject({
      email: 'wren@harrow.example',
      role: 'shop',
      depots: ['mossgate'],
    });
    await press(page, 'Done');
    await address.waitFor({ state: 'detached' });
    await page.getByText('13 people').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('are admins of all depots, whatever was chosen before', async () => {
    const { page, access } = await openAccess(browser, '/settings/people', { access: admin() });
    await page.getByText('12 people').waitFor();
    await press(page, 'Invite somebody');
    await page.keyboard.type('Wren Calloway');
    await page.keyboard.press('Tab');
    await page.keyboard.type('wren@harrow.example');
    await page.getByLabel('only these').check();
    await page.getByLabel('Mossgate').check();
    await page.getByLabel(/^admin/).check();
    await page.getByText('An admin works for all depots.').waitFor();
    expect(await page.getByLabel('Mossgate').count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
    await press(page, 'Make the one-time address');
    await shown(page, 'One-time address').waitFor();
    expect(access.people.at(-1)).toMatchObject({ role: 'admin', depots: null });
    await page.close();
  });

  it('whose e-mail is taken are not invited twice', async () => {
    const { page } = await openAccess(browser, '/settings/people', { access: admin() });
    await page.getByRole('button', { name: 'Invite somebody' }).click();
    await page.getByLabel('Name', { exact: true }).fill('Maren again');
    await page.getByLabel('E-mail', { exact: true }).fill('maren.oduya@harrow.example');
    await page.getByRole('button', { name: 'Make the one-time address' }).click();
    await page.getByText('Somebody with maren.oduya@harrow.example is here already.').waitFor();
    expect(await page.getByLabel('E-mail', { exact: true }).getAttribute('aria-invalid')).toBe('true');
    await page.close();
  });

  it('get another role, are unlocked, signed out and closed after one question, by keys alone', async () => {
    const { page, access, complaints } = await openAccess(browser, '/settings/people', { access: admin() });
    const locked = access.people.find(({ state }) => state === 'locked')!;
    const now = () => access.people.find(({ id }) => id === locked.id);
    await page.getByRole('button', { name: locked.name }).first().press('Enter');
    expect(searchOf(page).get('open')).toBe(locked.id);
    await press(page, 'Unlock now');
    await expect.poll(() => now()?.state).toBe('active');
    await page.getByRole('button', { name: 'Unlock now' }).waitFor({ state: 'detached' });
    await page.getByLabel('analyst').check();
    await press(page, 'Save the change');
    await page.getByText('Saved.').waitFor();
    expect(now()?.role).toBe('analyst');

    await press(page, 'Close the account');
    const ask = page.getByRole('dialog', { name: `Close the account of ${locked.name}?` });
    await ask.waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await ask.waitFor({ state: 'detached' });
    expect(now()?.state).toBe('active');
    await press(page, 'Close the account');
    await ask.getByRole('button', { name: 'Close the account' }).press('Enter');
    await expect.poll(() => now()?.state).toBe('closed');
    await page.getByRole('button', { name: 'Open the account again' }).press('Enter');
    await expect.poll(() => now()?.state).toBe('active');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('get a new one-time address after one question, and are signed out everywhere', async () => {
    const { page, access } = await openAccess(browser, '/settings/people?open=p-2', { access: admin() });
    await page.getByRole('button', { name: 'New one-time address' }).click();
    await page.getByRole('button', { name: 'Make the address' }).click();
    expect(await shown(page, 'One-time address').inputValue()).toContain('/welcome#');
    await page.getByRole('button', { name: 'Sign out everywhere' }).click();
    await expect.poll(() => access.people.find(({ id }) => id === 'p-2')?.sessions).toBe(0);
    await page.close();
  });

  it('keep a last admin', async () => {
    const access = admin();
    access.people = access.people.filter(({ id, role }) => id === 'p-1' || role !== 'admin');
    const { page } = await openAccess(browser, '/settings/people?open=p-1', { access });
    await page.getByLabel('planner').check();
    await page.getByRole('button', { name: 'Save the change' }).click();
    await page.getByText('This is the last admin.').waitFor();
    await page.close();
  });

  it('lead to what was changed about them', async () => {
    const { page } = await openAccess(browser, '/settings/people?open=p-3', { access: admin() });
    await page.getByRole('link', { name: /^What was changed about/ }).click();
    await page.getByText('Only about Tobin Ashgrove').waitFor();
    expect(searchOf(page).get('subject_id')).toBe('p-3');
    await page.close();
  });
});

describe('keys', () => {
  it('are made with right, expiry and bounds; the secret is shown once, with a call to try it', async () => {
    const { page, access, complaints } = await openAccess(browser, '/settings/keys', { access: admin() });
    await page.getByText('gateway Harrow Vale, gate 2').waitFor();
    await press(page, 'New key');
    await page.keyboard.type('report of the workshop');
    await page.getByLabel(/^read/).check();
    await page.getByLabel('Works until').selectOption('date');
    await page.getByLabel('Last day').fill('2026-12-31');
    await page.getByLabel('Calls a minute, at most').fill('60');
    await page.getByLabel('Longest delivery, MiB').fill('8');
    expect(await findViolations(page)).toEqual([]);
    await press(page, 'Make the key');
    expect(await shown(page, 'Key').inputValue()).toBe('sd_New1-a-secret-that-is-shown-once');
    await page
      .getByText(`curl -H "Authorization: Bearer $KEY" 'http://slipdrift.test/api/ranking?limit=5'`)
      .waitFor();
    expect(await findViolations(page)).toEqual([]);
    expect(access.keys[0]).toMatchObject({
      name: 'report of the workshop',
      right: 'read',
      expires_at: '2026-12-31T23:59:59.000Z',
      requests_per_minute: 60,
      max_body_mib: 8,
    });
    await press(page, 'Done');
    await page.getByText('a-secret-that-is-shown-once').waitFor({ state: 'detached' });
    expect(await page.content()).not.toContain('a-secret-that-is-shown-once');
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('are revoked after one question', async () => {
    const { page, access } = await openAccess(browser, '/settings/keys', { access: admin() });
    const revoke = page.getByRole('button', { name: 'Revoke the key of monthly report' });
    await revoke.click();
    await page.getByRole('dialog').getByRole('button', { name: 'Leave it' }).click();
    expect(access.keys.find(({ id }) => id === 'k-2')?.state).toBe('active');
    await revoke.click();
    await page.getByRole('dialog').getByRole('button', { name: 'Revoke the key' }).click();
    await revoke.waitFor({ state: 'detached' });
    expect(access.keys.find(({ id }) => id === 'k-2')?.state).toBe('revoked');
    await page.close();
  });

  it('that are not there yet are said to be needed', async () => {
    const access = admin();
    access.keys = [];
    const { page } = await openAccess(browser, '/settings/keys', { access });
    await page.getByText('No key yet. The first gateway needs one').waitFor();
    await page.close();
  });
});

describe('changes', () => {
  const list = (page: Page) => page.getByRole('list', { name: 'Changes' }).locator('> li');

  it('say who, what, from where, and each field old and new', async () => {
    const { page } = await openAccess(browser, '/settings/changes', { access: admin() });
    await page.getByText('130 changes').waitFor();
    await page.getByText('person Tobin Ashgrove').first().waitFor();
    await page.getByText('Mossgate').first().waitFor();
    const texts = (await list(page).allInnerTexts()).map((text) => text.replaceAll(/\s+/g, ' '));
    expect(texts).toHaveLength(50);
    expect(texts[0]).toBe(
      '4 Mar 2026, 08:30 Maren Oduya from 10.20.0.7 changed person Tobin Ashgrove role shop → , now planner depots Mossgate → , now all depots',
    );
    expect(texts[2]).toMatch(
      /key workshop system .* created platform Morvelt bus .* limit 150 rpm .* 4 more fields$/,
    );
    expect(texts.join(' ')).not.toMatch(/[{}]|null|undefined/);
    await page.close();
  });

  it('keep filters and page in the address, and give the same as a file', async () => {
    const { page, calls } = await openAccess(browser, '/settings/changes', { access: admin() });
    await page.getByText('130 changes').waitFor();
    await page.getByRole('link', { name: 'Older changes' }).click();
    await expect.poll(() => searchOf(page).get('before_id')).toBe('81');
    await page.getByRole('link', { name: 'Newest changes' }).waitFor();
    await page.getByLabel('About').selectOption('vehicle');
    await expect.poll(() => searchOf(page).has('before_id')).toBe(false);
    await page.getByText('22 changes').waitFor();
    await page.getByLabel('What').selectOption('sent_to_shop');
    await page.getByLabel('Who').fill('maren');
    await page.getByLabel('Since').fill('2026-03-01');
    await page.getByLabel('Until').fill('2026-03-04');
    await expect.poll(() => searchOf(page).get('until')).toBe('2026-03-04');
    await expect.poll(() => searchOf(page).get('actor')).toBe('maren');
    const address = new URL(page.url());
    expect(Object.fromEntries(address.searchParams)).toEqual({
      subject: 'vehicle',
      action: 'sent_to_shop',
      actor: 'maren',
      since: '2026-03-01',
      until: '2026-03-04',
    });
    const file = page.getByRole('link', { name: 'Download CSV' });
    const { pathname, searchParams } = new URL((await file.getAttribute('href')) ?? '', address);
    expect(pathname).toBe('/api/changes.csv');
    expect(Object.fromEntries(searchParams)).toEqual({
      subject: 'vehicle',
      action: 'sent_to_shop',
      actor: 'maren',
      since: '2026-03-01T00:00:00.000Z',
      until: '2026-03-05T00:00:00.000Z',
    });
    await page.reload();
    await expect.poll(() => page.getByLabel('Who').inputValue()).toBe('maren');
    expect(calls.length).toBeGreaterThan(3);
    await page.close();
  });

  it('that match nothing offer all', async () => {
    const { page } = await openAccess(browser, '/settings/changes?actor=nobody', { access: admin() });
    await page.getByText('No change matches.').waitFor();
    await page.getByRole('button', { name: 'Show all changes' }).click();
    await page.getByText('130 changes').waitFor();
    expect(searchOf(page).size).toBe(0);
    await page.close();
  });

  it('that are none yet say so', async () => {
    const access = admin();
    access.changes = [];
    const { page } = await openAccess(browser, '/settings/changes', { access });
    await page.getByText('Nothing was changed yet.').waitFor();
    await page.close();
  });
});
