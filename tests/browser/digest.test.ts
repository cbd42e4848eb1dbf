import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Digest } from '#server/contract/digest.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { type Access, makeAccess } from './fixtures/access-fixture.ts';
import { makeDigest, makeDigestState, makeQuietDigest } from './fixtures/digest-fixture.ts';
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
  access?: Access;
  /** the digest of each Monday; any other week is refused */
  weeks?: Record<string, Digest>;
}

const thisWeek = '2026-03-02';

/** Opens another screen first, so that the digest's own calls are answered from the first one on. */
async function open(path: string, { weeks = { [thisWeek]: makeDigest() }, ...options }: Options = {}) {
  const opened = await openAccess(browser, '/account', options);
  const asked: Record<string, string>[] = [];
  await opened.page.route(`${origin}/api/digest?*`, (route) => {
    const query = Object.fromEntries(new URL(route.request().url()).searchParams);
    asked.push(query);
    const found = weeks[query.week ?? thisWeek];
    if (found !== undefined) return route.fulfill({ json: found });
    const detail = 'The week of 9 Mar 2026 has not begun. The newest digest is that of this week.';
    return route.fulfill({
      status: 400,
      contentType: 'application/problem+json',
      json: {
        type: 'about:blank',
        title: 'The request is not right',
        status: 400,
        detail,
        code: 'invalid_request',
        errors: [],
      },
    });
  });
  await opened.page.goto(origin + path);
  return { ...opened, asked };
}

const partsOf = [
  'On hold without a day',
  'Newly on hold',
  'Got worse',
  'Over and not closed',
  'Gone quiet',
  'Newly booked',
  'Inspected',
  'Bays of the week',
];

describe('the digest', () => {
  it.each([
    [390, 'light'],
    [390, 'dark'],
    [1280, 'dark'],
    [1280, 'light'],
    [1920, 'light'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await open('/digest', { width, colorScheme });
    await page.getByRole('heading', { name: 'Bays of the week' }).waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('tells the week in a sentence, then part by part, the most urgent first', async () => {
    const { page } = await open('/digest');
    await headOf(page, 'This week').waitFor();
    await page.getByText('2 vehicles wait on hold without a day, 2 went on hold').waitFor();
    await page.getByText('2 to 8 Mar 2026').waitFor();
    const heads = await page.locator('main h2').allInnerTexts();
    expect(heads.map((text) => text.replace(/\s*\d+$/, ''))).toEqual(partsOf);
    const worse = page.getByRole('region', { name: /^Got worse/ }).getByRole('listitem');
    expect(await worse.count()).toBe(4);
    expect((await worse.allInnerTexts())[0]?.replace(/\s+/g, ' ')).toBe(
      'V-3311 Mossgate book Book, was watch. Chance of the limit within 5,000 km: 45 %, was 12 %.',
    );
    const rail = worse.first().getByRole('img');
    expect(await rail.getAttribute('aria-label')).toBe(
      'limit in 1,900 to 6,200\u00a0km, median 3,400\u00a0km',
    );
    await page.getByText('3 more have been quiet for longer than two weeks.').waitFor();
    await page.getByText('42 of 36 h booked, 6 h more than there are, 13 bookings').waitFor();
    await page.close();
  });

  it('has all rails on one scale', async () => {
    const { page } = await open('/digest');
    const rails = page.locator('main [data-kind] svg[role=img]');
    await rails.first().waitFor();
    const widths = await rails.evaluateAll((all) => all.map((one) => one.getBoundingClientRect().width));
    expect(widths).toHaveLength(8);
    expect(new Set(widths).size).toBe(1);
    await page.close();
  });

  it('is reached from the navigation, walked through and left for a vehicle, by keys alone', async () => {
    const { page, complaints, asked } = await open('/account', {
      weeks: {
        [thisWeek]: makeDigest(),
        '2026-02-23': makeQuietDigest({
          week: '2026-02-23',
          current: false,
          uncovered_holds: null,
          not_closed: null,
        }),
      },
    });
    const nav = page.getByRole('navigation', { name: 'Screens' });
    await nav.getByRole('link', { name: 'This week' }).press('Enter');
    await headOf(page, 'This week').waitFor();
    const weeks = page.getByRole('navigation', { name: 'Weeks' });
    await weeks.getByRole('link', { name: 'Week before' }).press('Enter');
    await headOf(page, 'Past week').waitFor();
    await page.getByText('23 Feb to 1 Mar 2026').waitFor();
    expect(new URL(page.url()).search).toBe('?week=2026-02-23');
    expect(await weeks.getByRole('link').allInnerTexts()).toEqual(['Week before', 'This week']);
    await weeks.getByRole('link', { name: 'This week' }).press('Enter');
    await headOf(page, 'This week').waitFor();
    expect(new URL(page.url()).search).toBe('');
    expect(complaints).toEqual([]);
    await page.getByRole('link', { name: 'T-2018' }).first().press('Enter');
    await page.waitForURL(`${origin}/vehicles/T-2018`);
    expect(asked[0]).toEqual({ units: 'metric' });
    await page.close();
  });

  it('keeps depot and week in the address, and asks in the units of the reader', async () => {
    const { page, asked } = await open('/digest');
    await page.evaluate(() => localStorage.setItem('slipdrift.distance', 'mi'));
    await page.reload();
    const depot = page.getByLabel('Depot');
    await depot.selectOption('Mossgate');
    await expect.poll(() => asked.at(-1)).toEqual({ depot: 'mossgate', units: 'imperial' });
    expect(new URL(page.url()).search).toBe('?depot=mossgate');
    await page.goBack();
    await expect.poll(() => depot.inputValue()).toBe('');
    await page.close();
  });

  it('offers people of one depot nothing to choose', async () => {
    const access = makeAccess({ role: 'planner', depots: ['mossgate'] });
    const { page } = await open('/digest', { access });
    await page.getByRole('heading', { name: 'Bays of the week' }).waitFor();
    expect(await page.getByLabel('Depot').count()).toBe(0);
    await page.close();
  });

  it('says in a few words where there is nothing', async () => {
    const { page, complaints } = await open('/digest', {
      weeks: { [thisWeek]: makeQuietDigest({ compared_with: null, ahead: [] }) },
    });
    for (const words of [
      'Every vehicle on hold has a day.',
      'No vehicle went on hold.',
      'There is no list of a week before to compare with.',
      'Every booking that is over is closed.',
      'Nobody fell silent.',
      'Nothing was booked.',
      'Nothing was inspected.',
      'No depot is set up.',
    ])
      await page.getByText(words).waitFor();
    expect(await findViolations(page)).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('of a past week leads to what stands open now', async () => {
    const past = makeDigest({ week: '2026-02-16', current: false, uncovered_holds: null, not_closed: null });
    const { page } = await open('/digest?week=2026-02-16', { weeks: { '2026-02-16': past } });
    await headOf(page, 'Past week').waitFor();
    expect(await page.getByRole('heading', { name: 'On hold without a day' }).count()).toBe(0);
    const link = page.getByRole('link', { name: 'the digest of this week' });
    expect(await link.getAttribute('href')).toBe('/digest');
    await page.close();
  });

  it('shows fifteen lines of a part, the rest when asked, and all of them in print', async () => {
    const [one] = makeDigest().inspected;
    const many = Array.from({ length: 20 }, (_, i) => ({
      ...one!,
      vehicle: `I-${i + 1}`,
      booking: { ...one!.booking, id: i },
    }));
    const { page } = await open('/digest', { weeks: { [thisWeek]: makeDigest({ inspected: many }) } });
    const last = page.getByRole('link', { name: 'I-20' });
    await page.getByRole('link', { name: 'I-15' }).waitFor();
    expect(await last.isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    expect(await last.isVisible()).toBe(true);
    await page.emulateMedia({ media: 'screen' });
    await page.getByRole('button', { name: 'Show all 20' }).press('Enter');
    expect(await last.isVisible()).toBe(true);
    await page.getByRole('button', { name: 'Show the first 15' }).waitFor();
    await page.close();
  });

  it('prints on A4 in ink on paper, without controls, nothing cut off', async () => {
    const { page } = await open('/digest', { width: 688, colorScheme: 'dark' });
    await page.getByRole('heading', { name: 'Bays of the week' }).waitFor();
    // A4 less margins of 14 mm at 96 px an inch.
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' });
    await expectToFit(page);
    for (const gone of ['banner', 'button', 'combobox'] as const)
      expect(await page.getByRole(gone).count(), gone).toBe(0);
    const ink = await page.evaluate(() => getComputedStyle(document.documentElement).color);
    expect(ink).toBe('rgb(28, 26, 22)');
    const cut = await page
      .locator('main li')
      .evaluateAll((all) => all.filter((line) => line.scrollWidth > line.clientWidth + 1).length);
    expect(cut).toBe(0);
    await page.close();
  });

  it('says what was refused, and goes on from there', async () => {
    const { page } = await open('/digest?week=2026-03-09');
    await page.getByText('has not begun').waitFor();
    await page.getByRole('link', { name: 'Week before' }).click();
    await headOf(page, 'This week').waitFor();
    await page.getByText('2 vehicles wait on hold').waitFor();
    await page.close();
  });

  it('goes back a week with each press, however long the weeks take to come', async () => {
    const { page } = await open('/digest');
    await page.getByText('2 vehicles wait on hold').waitFor();
    await page.route(`${origin}/api/digest?*`, () => undefined);
    const before = page.getByRole('link', { name: 'Week before' });
    for (const week of ['2026-02-23', '2026-02-16', '2026-02-09']) {
      await before.press('Enter');
      await page.waitForURL(`${origin}/digest?week=${week}`);
    }
    await page.close();
  });

  it('is not for a shop', async () => {
    const access = makeAccess({ role: 'shop', depots: ['mossgate'] });
    const { page, calls } = await open('/digest', { access });
    await page.getByText('The digest is for planner, analyst and admin.').waitFor();
    expect(await page.getByRole('link', { name: 'This week' }).count()).toBe(0);
    expect(calls.filter((call) => call.includes('/digest'))).toEqual([]);
    await page.close();
  });
});

describe('the choice on the account', () => {
  const label = 'Send me the week by e-mail on Mondays';

  it('is ticked and unticked by keys, in the units of the reader', async () => {
    const { page, access, complaints } = await open('/account');
    await page.evaluate(() => localStorage.setItem('slipdrift.distance', 'mi'));
    await page.reload();
    const box = page.getByRole('checkbox', { name: label });
    await box.press('Space');
    await expect.poll(() => access.digestMail).toMatchObject({ by_mail: true, units: 'imperial' });
    await page.getByText('worded in miles').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await box.press('Space');
    await expect.poll(() => access.digestMail.by_mail).toBe(false);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('says when the last one was sent, or why it was not, and where no mail server is set', async () => {
    const access = makeAccess();
    access.digestMail = makeDigestState({
      by_mail: true,
      units: 'imperial',
      can_mail: false,
      last_sent_at: '2026-02-23T06:00:10Z',
      problem: 'The week of 2 Mar 2026 was not sent. The mail server refused your address.',
    });
    const { page } = await open('/account', { access, width: 390 });
    await page.getByText('The mail server refused your address.').waitFor();
    await page.getByText('Last sent 23 Feb 2026').waitFor();
    await page.getByText('No mail server is set here yet').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    await page.getByRole('button', { name: 'Word it in kilometres, as you read here' }).click();
    await expect.poll(() => access.digestMail.units).toBe('metric');
    await page.close();
  });

  it('is none of a shop', async () => {
    const { page, calls } = await open('/account', { access: makeAccess({ role: 'shop', depots: null }) });
    await page.getByRole('heading', { name: 'Password' }).waitFor();
    expect(await page.getByRole('checkbox').count()).toBe(0);
    expect(calls.some((call) => call.includes('digest'))).toBe(false);
    await page.close();
  });
});
