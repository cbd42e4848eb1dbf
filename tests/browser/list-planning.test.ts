import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { findViolations } from './find-violations.ts';
import { makeAccess, makeAtShop } from './fixtures/access-fixture.ts';
import { withPlans } from './fixtures/list-answers.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { expectToFit, headOf, openAccess } from './open-access.ts';

const rows = withPlans(makeRows());
let browser: Browser;

beforeAll(async () => {
  await buildScreens();
  browser = await launchBrowser();
});
afterAll(() => browser?.close());

const open = (address: string, options: Parameters<typeof openAccess>[2] = {}) =>
  openAccess(browser, address, { rows, ...options });
const searchOf = (page: Page) => new URL(page.url()).searchParams;
const rowOf = (page: Page, vehicle: string) => page.locator(`[data-vehicle="${vehicle}"]`);
const tickOf = (page: Page, vehicle: string) => page.getByLabel(`Choose ${vehicle}`, { exact: true });
const panelOf = (page: Page, name: 'Chosen vehicles' | 'Comparison') =>
  page.getByRole('complementary', { name });
const find = (test: (row: (typeof rows)[number]) => boolean) => {
  const row = rows.find(test);
  if (row === undefined) throw new Error('the fixture has such a row');
  return row;
};

describe('a row of the list', () => {
  it('shows its booking, leads to it in the bay plan, and is quiet without one', async () => {
    const { page, complaints } = await open('/');
    const [ahead, putOff, past, none] = [
      find((row) => row.booking?.state === 'booked' && !row.booking.past && row.booking.depot === row.depot),
      find((row) => row.booking?.state === 'put_off'),
      find((row) => row.booking?.past === true),
      find((row) => row.booking === null),
    ];
    const link = rowOf(page, ahead.vehicle).getByRole('link');
    await link.waitFor();
    expect(await link.locator('span').allTextContents()).toEqual(['Mon 9 Mar', 'bay 2']);
    expect(await link.getAttribute('href')).toBe(
      `/bay-plan?depot=${ahead.depot}&from=2026-03-09&open=${ahead.booking?.id}`,
    );
    expect(await rowOf(page, putOff.vehicle).getByRole('link').textContent()).toMatch(/^put off/);
    expect(await rowOf(page, past.vehicle).getByRole('link').textContent()).toMatch(
      /^over: not closedFri 27 Feb/,
    );
    expect(await rowOf(page, none.vehicle).getByRole('link').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('shows what has changed since a week ago, and nothing where nothing has', async () => {
    const { page } = await open('/');
    const regraded = find((row) => row.week_ago !== null && row.week_ago.grade !== row.grade);
    await rowOf(page, regraded.vehicle).getByText(`was ${regraded.week_ago?.grade}`).waitFor();
    const moved = find(
      (row) => row.grade === 'book' && row.week_ago?.grade === 'book' && (row.week_ago.rank ?? 0) > row.rank,
    );
    const places = (moved.week_ago?.rank ?? 0) - moved.rank;
    await rowOf(page, moved.vehicle).getByText(`up ${places} place`).waitFor({ state: 'attached' });
    const same = find(
      (row) => row.grade === 'book' && row.week_ago?.grade === 'book' && row.week_ago.rank === row.rank,
    );
    expect(
      await rowOf(page, same.vehicle)
        .getByText(/week ago|^was /)
        .count(),
    ).toBe(0);
    await page.close();
  });

  it('says why it stands above the next one, and finds it a day', async () => {
    const [first, second] = rows;
    const { page, calls } = await open(`/?open=${first?.vehicle}`);
    await page.getByRole('heading', { name: `Why above ${second?.vehicle}?` }).waitFor();
    await page.getByText(`Inspecting ${first?.vehicle} is expected to avoid`).waitFor();
    expect(calls).toContain('GET /api/ranking/explain');
    expect(await page.getByRole('link', { name: 'Find a day', exact: true }).getAttribute('href')).toBe(
      `/bay-plan?book=${first?.vehicle}`,
    );
    await page.getByText(`rank ${first?.week_ago?.rank}, `).first().waitFor();
    await page.close();
  });

  it.each([1024, 1280, 1920])('has nothing cut off at %i px', async (width) => {
    const long = 'REGIONAL-SERVICES/NORTH-EAST/UTILITY-TRUCK/000000000000000417-B';
    const fleet = rows.slice(0, 60).map((row, i) => ({
      ...row,
      ...(i === 3 ? { vehicle: long } : {}),
      last_reading_at: new Date(Date.parse('2026-03-04T08:30:00Z') - i * 15 * 864e5).toISOString(),
      reasons:
        i === 5
          ? [`${row.reasons[0]}, and that is told at length: ${'word by word '.repeat(12)}`]
          : row.reasons,
    }));
    const { page } = await open('/', { rows: fleet, width });
    await page.locator('[data-index="0"]').waitFor();
    const cut = await page.locator('table :is(th, td, button, a, span, small)').evaluateAll((all) =>
      all
        .filter(
          (one) => !one.closest('.only-spoken') && !one.closest('svg') && one.getClientRects().length > 0,
        )
        .filter(
          (one) =>
            one.textContent !== '' &&
            one.scrollWidth > one.clientWidth + 1 &&
            getComputedStyle(one).display !== 'inline',
        )
        .map((one) => one.textContent),
    );
    expect(cut).toEqual([]);
    // No words reach into the neighbouring cell, nor out of the row.
    const overlaps = await page.locator('tr[aria-rowindex] > *').evaluateAll((all) =>
      all.flatMap((cell) => {
        const box = cell.getBoundingClientRect();
        const walker = document.createTreeWalker(cell, NodeFilter.SHOW_TEXT);
        const out: string[] = [];
        for (let node = walker.nextNode(); node !== null; node = walker.nextNode()) {
          if (node.parentElement?.closest('.only-spoken, [class*="rail"] *') != null) continue;
          const range = document.createRange();
          range.selectNodeContents(node);
          const isOut = [...range.getClientRects()].some(
            ({ left, right, top, bottom }) =>
              left < box.left - 1 || right > box.right + 1 || top < box.top - 1 || bottom > box.bottom + 1,
          );
          if (isOut) out.push(node.textContent ?? '');
        }
        return out;
      }),
    );
    expect(overlaps).toEqual([]);
    await expectToFit(page);
    await page.close();
  });
});

describe('the filters', () => {
  it('of booking, change, and missing depot stand in the address and narrow list, outlook and file', async () => {
    const { page } = await open('/');
    await page.locator('[data-index="0"]').waitFor();
    const asked: string[] = [];
    page.on('request', (request) => {
      const { pathname, search } = new URL(request.url());
      if (pathname.startsWith('/api/ranking')) asked.push(pathname + search);
    });
    await page.getByLabel('Booking').selectOption('without a booking');
    await page.getByLabel('Since a week ago').selectOption('got worse');
    await page.getByLabel('Depot').selectOption('no depot');
    await page.getByLabel('Platform').selectOption('no platform');
    await expect.poll(() => searchOf(page).get('lacks')).toBe('both');
    expect(Object.fromEntries(searchOf(page))).toEqual({ booking: 'none', changed: 'worse', lacks: 'both' });
    await expect.poll(() => asked.filter((one) => one.includes('lacks=both')).length).toBeGreaterThan(1);
    for (const path of ['/api/ranking?', '/api/ranking/outlook?'])
      expect(
        asked.some((one) => one.startsWith(path) && one.includes('lacks=both&booking=none&changed=worse')),
      ).toBe(true);
    const file = page.getByRole('link', { name: 'Download CSV' });
    expect(await file.getAttribute('href')).toContain('lacks=both&booking=none&changed=worse');
    await page.getByLabel('Depot').selectOption('Mossgate');
    await expect.poll(() => searchOf(page).get('lacks')).toBe('platform');
    await page.getByRole('button', { name: 'Show all vehicles' }).click();
    await expect.poll(() => page.url().split('?')[1]).toBe(undefined);
    await page.close();
  });

  it('are kept under a name, chosen, renamed and deleted by keys alone', async () => {
    const { page, access, complaints } = await open('/?grade=hold,book&booking=none&open=x');
    await page.locator('[data-index="0"]').waitFor();
    await page.getByText('Saved filters', { exact: true }).press('Enter');
    await page.getByLabel('Save this filter as').fill('Monday, to book');
    expect(await findViolations(page)).toEqual([]);
    await page.getByLabel('Save this filter as').press('Enter');
    await page.getByText('Saved as Monday, to book.').waitFor();
    expect(access.savedFilters).toEqual([
      { id: 1, name: 'Monday, to book', search: 'grade=hold,book&booking=none' },
    ]);
    await page.getByText('Saved filter: Monday, to book').waitFor();

    await page.getByLabel('Name of this filter').fill('To book');
    await page.getByRole('button', { name: 'Rename' }).press('Enter');
    await page.getByText('Saved filter: To book').waitFor();
    expect(access.savedFilters.map(({ name }) => name)).toEqual(['To book']);

    await page.keyboard.press('Escape');
    await page.getByRole('button', { name: /hold/ }).click();
    await page.getByText('Saved filters', { exact: true }).press('Enter');
    await page.getByRole('link', { name: 'To book' }).press('Enter');
    await expect.poll(() => page.url().split('?')[1]).toBe('grade=hold,book&booking=none');
    await page.getByText('Saved filter: To book').press('Enter');
    await page.getByRole('button', { name: 'Delete the filter To book' }).press('Enter');
    await page.getByText('To book was deleted.').waitFor();
    expect(access.savedFilters).toEqual([]);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('of a shop are without plans and names', async () => {
    const { page } = await open('/', { access: makeAccess({ role: 'shop', depots: ['harrow-vale'] }) });
    await headOf(page, 'Sent to you').waitFor();
    for (const label of ['Booking', 'Since a week ago']) expect(await page.getByLabel(label).count()).toBe(0);
    expect(await page.getByText('Saved filters').count()).toBe(0);
    await page.close();
  });
});

describe('a choice of many', () => {
  it('grows row by row, by Shift, and to all that the filter shows, and lasts over a reload', async () => {
    const { page, complaints } = await open('/');
    await tickOf(page, rows[2]!.vehicle).click();
    await expect.poll(() => searchOf(page).get('chosen')).toBe(rows[2]!.vehicle);
    await tickOf(page, rows[6]!.vehicle).click({ modifiers: ['Shift'] });
    await panelOf(page, 'Chosen vehicles').getByText('5 vehicles chosen').waitFor();
    expect(await page.getByRole('button', { name: 'Compare', exact: true }).isDisabled()).toBe(true);
    await tickOf(page, rows[3]!.vehicle).click();
    await tickOf(page, rows[4]!.vehicle).click();
    await page.getByText(`${[2, 5, 6].map((i) => rows[i]!.vehicle).join(', ')} chosen`).waitFor();
    expect(await page.getByRole('button', { name: 'Compare', exact: true }).isEnabled()).toBe(true);

    await page.getByLabel(`Choose all ${rows.length}`).click();
    await page.getByText(`${rows.length} vehicles chosen`).waitFor();
    expect(searchOf(page).get('chosen')).toMatch(/^kept:/);
    await page.reload();
    await page.getByText(`${rows.length} vehicles chosen`).waitFor();
    await page.getByLabel('Choose none').click();
    await expect.poll(() => searchOf(page).get('chosen')).toBe(null);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('goes on to the bay plan with exactly these, and tells who has a booking already', async () => {
    const ahead = find((row) => row.booking?.state === 'booked' && !row.booking.past).vehicle;
    const past = find((row) => row.booking?.past === true).vehicle;
    const free = rows.filter((row) => row.booking === null).slice(0, 2);
    const chosen = [ahead, past, ...free.map((row) => row.vehicle)];
    const { page } = await open(`/?chosen=${chosen.map(encodeURIComponent).join(',')}`);
    const panel = panelOf(page, 'Chosen vehicles');
    await panel.getByText(`1 of them has a day already and keeps it (${ahead})`).waitFor();
    await panel
      .getByText(`1 of them has a booking that is over: close it, and it can get a day (${past})`)
      .waitFor();
    const link = panel.getByRole('link', { name: 'Find days for 4 vehicles' });
    const { pathname, searchParams } = new URL((await link.getAttribute('href')) ?? '', page.url());
    expect(pathname).toBe('/bay-plan');
    expect(searchParams.get('propose')?.split(',').map(decodeURIComponent)).toEqual(chosen);
    await page.close();
  });

  it('is a thousand at most, and says so', async () => {
    const many = makeRows(1500);
    const { page } = await open('/', { rows: many });
    await page.getByLabel('Choose the first 1,000 of 1,500').click();
    await page.getByText('1,000 vehicles chosen').waitFor();
    const last = many.at(-1)!.vehicle;
    await page.goto(`${page.url()}&q=${encodeURIComponent(last)}`);
    await tickOf(page, last).waitFor();
    expect(await tickOf(page, last).isDisabled()).toBe(true);
    await page.close();
  });

  it('leads an analyst to no days, and a shop has no ticks', async () => {
    const address = `/?chosen=${rows[0]!.vehicle},${rows[1]!.vehicle}`;
    const { page } = await open(address, { access: makeAccess({ role: 'analyst' }) });
    await panelOf(page, 'Chosen vehicles').getByRole('button', { name: 'Compare' }).waitFor();
    expect(await page.getByRole('link', { name: /Find/ }).count()).toBe(0);
    await page.close();
    const { page: shop, calls } = await open(address, {
      access: makeAccess({ role: 'shop', depots: ['harrow-vale'] }),
    });
    await shop.locator('[data-index="0"]').waitFor();
    expect(await shop.getByRole('checkbox').count()).toBe(0);
    expect(await shop.getByRole('complementary').count()).toBe(0);
    expect(calls.filter((call) => /explain|units|holds|saved/.test(call))).toEqual([]);
    await shop.close();
  });

  it('of which the window knows nothing is none, and the list is there', async () => {
    const { page, complaints } = await open('/?chosen=kept:elsewhere-9');
    await page.locator('[data-index="0"]').waitFor();
    expect(await page.getByRole('complementary').count()).toBe(0);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('the comparison', () => {
  const [a, b, c] = rows.map((row) => row.vehicle);

  it('opens from the choice, keeps to the address, and has chart, order, bookings and the week before', async () => {
    const { page, complaints } = await open(`/?chosen=${a},${b}`);
    await page.getByRole('button', { name: 'Compare', exact: true }).press('Enter');
    await expect.poll(() => searchOf(page).get('compare')).toBe(`${a},${b}`);
    const panel = panelOf(page, 'Comparison');
    await panel.getByText(`Why ${a} above ${b}?`).waitFor();
    await panel.locator('svg text', { hasText: a! }).first().waitFor({ state: 'attached' });
    await expect
      .poll(() => panel.locator('svg text').allTextContents())
      .toEqual(expect.arrayContaining([a, b]));
    for (const name of ['Rank', 'Distance to limit', 'Booking', 'A week ago', 'Reasons'])
      await panel.getByRole('rowheader', { name, exact: true }).waitFor();
    await panel.getByRole('button', { name: 'Numbers' }).click();
    await panel.getByText(`${a}, limit`).waitFor();
    await page.reload();
    await panelOf(page, 'Comparison').getByText(`Why ${a} above ${b}?`).waitFor();
    await tickOf(page, c!).check({ force: true });
    await expect.poll(() => searchOf(page).get('compare')).toBe(`${a},${b},${c}`);
    await page.getByText(`Why ${b} above ${c}?`).waitFor();
    await page.getByLabel(`Take ${b} out of the comparison`).click();
    await page.getByText(`Why ${a} above ${c}?`).waitFor();
    await page.getByRole('button', { name: 'Fold' }).click();
    await expect.poll(() => searchOf(page).get('chosen')).toBe(`${a},${c}`);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('is stacked on a phone, and fits', async () => {
    const { page, complaints } = await open(`/?compare=${a},${b},${c}`, { width: 390 });
    const panel = panelOf(page, 'Comparison');
    await panel.getByText(`Why ${b} above ${c}?`).waitFor();
    await panel.locator('svg text', { hasText: a! }).first().waitFor({ state: 'attached' });
    expect(await panel.getByRole('table').count()).toBe(0);
    const booking = panel.getByRole('region').getByRole('heading', { name: 'Booking' });
    await booking.scrollIntoViewIfNeeded();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });
});

describe('holds without a day', () => {
  const holds = rows.filter(
    (row) =>
      row.grade === 'hold' && (row.booking === null || row.booking.past || row.booking.state === 'put_off'),
  );

  it('stand above the list with a way to days for them', async () => {
    const { page } = await open('/');
    const note = page.getByRole('region', { name: /on hold have no day/ });
    await note.getByRole('link', { name: holds[0]!.vehicle }).waitFor();
    const href = await note.getByRole('link', { name: 'Find days for all of them' }).getAttribute('href');
    const { searchParams } = new URL(href ?? '', page.url());
    expect(searchParams.get('propose')?.split(',')).toEqual(holds.map((row) => row.vehicle));
    const note1 = await note.boundingBox();
    const head = await headOf(page, 'Inspection list').boundingBox();
    expect(note1!.y).toBeLessThan(head!.y);
    await note.getByRole('link', { name: holds[0]!.vehicle }).click();
    await expect.poll(() => searchOf(page).get('open')).toBe(holds[0]!.vehicle);
    await page.close();
  });

  it.each(['/', '/?sort=vehicle', '/?grade=watch'])('lead to their rows from %s', async (address) => {
    const { page } = await open(address);
    const note = page.getByRole('region', { name: /on hold have no day/ });
    const last = holds.slice(0, 5).at(-1)?.vehicle ?? '';
    await note.getByRole('link', { name: last }).press('Enter');
    await expect.poll(() => searchOf(page).get('open')).toBe(last);
    const isInSight = () =>
      rowOf(page, last).evaluateAll((all) =>
        all.some((one) => {
          const { top, bottom } = one.getBoundingClientRect();
          return top < innerHeight && bottom > 0;
        }),
      );
    await expect.poll(isInSight).toBe(true);
    await page.close();
  });

  it.each(['planner', 'analyst', 'shop'] as const)('are told to a %s as fits', async (role) => {
    const access = makeAccess({ role, depots: role === 'shop' ? ['harrow-vale'] : null });
    const { page } = await open('/', { access });
    await page.locator('[data-index="0"]').waitFor();
    const note = page.getByRole('region', { name: /on hold have no day/ });
    if (role === 'shop') expect(await note.count()).toBe(0);
    else await note.waitFor();
    expect(await page.getByRole('link', { name: /^Find days/ }).count()).toBe(role === 'planner' ? 1 : 0);
    await page.close();
  });
});

describe('the opened row of a shop', () => {
  it.each([
    [390, 'light'],
    [1280, 'dark'],
  ] as const)(
    'has its note and neither costs nor ranks explained, at %i px, %s',
    async (width, colorScheme) => {
      const access = makeAccess({ role: 'shop', depots: ['harrow-vale'] });
      const [first] = rows;
      const note = 'Shudders when warm.\nStands at gate 2.';
      access.atShop.set(first!.vehicle, makeAtShop(note));
      const { page, complaints } = await open(`/?open=${first!.vehicle}`, { access, width, colorScheme });
      await page.getByText('Shudders when warm.').waitFor();
      await page.getByText('Sent by Maren Oduya, 3 Mar 2026').waitFor();
      for (const words of ['Expected cost avoided', 'Why above', 'week ago', 'Find a day'])
        expect(await page.getByText(words).count(), words).toBe(0);
      expect(await page.getByRole('checkbox').count()).toBe(0);
      expect(await findViolations(page)).toEqual([]);
      await expectToFit(page);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );
});

describe('the list on a phone', () => {
  it.each(['light', 'dark'] as const)(
    'has booking and change on its cards, and room for a thumb, %s',
    async (colorScheme) => {
      const { page, complaints } = await open('/', { width: 390, colorScheme });
      const booked = find(
        (row) => row.booking?.state === 'booked' && !row.booking.past && row.booking.depot === row.depot,
      );
      await rowOf(page, booked.vehicle).getByRole('link', { name: 'Mon 9 Mar, bay 2' }).waitFor();
      const regraded = find((row) => row.week_ago !== null && row.week_ago.grade !== row.grade);
      await rowOf(page, regraded.vehicle).getByText(`was ${regraded.week_ago?.grade}`).waitFor();
      await page.getByText('Filters and order').click();
      await page.getByLabel('Since a week ago').waitFor();
      expect(await findViolations(page)).toEqual([]);
      await expectToFit(page);
      expect(complaints).toEqual([]);
      await page.close();
    },
  );
});
