import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { fixturePassword, makeAccess } from './fixtures/access-fixture.ts';
import { expectToFit, headOf, openAccess, pathOf } from './open-access.ts';

let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

describe('the account', () => {
  it.each([
    [390, 'light'],
    [1280, 'dark'],
    [1920, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await openAccess(browser, '/account', { width, colorScheme });
    await page.getByText('Computer, this one').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is reached from the name, and says role and depots in words', async () => {
    const access = makeAccess({ role: 'shop', depots: ['harrow-vale', 'mossgate'] });
    const { page, complaints } = await openAccess(browser, '/', { access });
    await page.locator('summary', { hasText: 'Maren Oduya' }).press('Enter');
    await page.getByText('shop, Harrow Vale and Mossgate').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await page.getByRole('link', { name: 'Your account' }).press('Enter');
    await headOf(page, 'Maren Oduya').waitFor();
    await page.getByText('shop: sees the vehicles that were sent to its shop').waitFor();
    await page.getByText('Harrow Vale and Mossgate', { exact: true }).first().waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('changes the password: says a wrong one, a short one, and that it is done', async () => {
    const { page, access } = await openAccess(browser, '/account');
    const now = page.getByLabel('Password now', { exact: true });
    const next = page.getByLabel('New password', { exact: true });
    expect(await now.getAttribute('autocomplete')).toBe('current-password');
    expect(await next.getAttribute('autocomplete')).toBe('new-password');
    expect(await page.locator('input[autocomplete=username]').inputValue()).toBe(
      'maren.oduya@harrow.example',
    );
    await now.fill('not mine');
    await next.fill('short');
    await page.keyboard.press('Enter');
    await page.getByText('It has 5 characters; at least 12 are needed.').waitFor();
    await next.fill('another long password');
    await page.keyboard.press('Enter');
    await page.getByText('is not your present password').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await now.fill(fixturePassword);
    await page.keyboard.press('Enter');
    await page.getByText('The password is changed.').waitFor();
    expect(access.password).toBe('another long password');
    expect(await next.inputValue()).toBe('');
    await page.close();
  });

  it('ends one place, and all after a question', async () => {
    const { page, access, complaints } = await openAccess(browser, '/account');
    await page.getByRole('button', { name: /^End Phone or tablet/ }).press('Enter');
    await page.getByText('Phone or tablet').waitFor({ state: 'detached' });
    expect(access.places.map(({ id }) => id)).toEqual(['s-1', 's-3']);
    await page.getByRole('button', { name: 'Sign out everywhere' }).press('Enter');
    const ask = page.getByRole('dialog', { name: 'Sign out everywhere?' });
    await ask.getByRole('button', { name: 'Sign out everywhere' }).press('Enter');
    await page.getByText('You are signed out on this device.').waitFor();
    expect(pathOf(page)).toBe('/sign-in');
    expect(access.session.person).toBeNull();
    expect(complaints).toEqual([]);
    await page.close();
  });
});
