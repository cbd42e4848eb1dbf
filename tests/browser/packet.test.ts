import type { Browser, Page, Route } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import type { Packet } from '#server/contract/packets.ts';
import { reportContent } from '#server/contract/repair.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { buildScreens } from './build-screens.ts';
import { press } from './by-keys.ts';
import { findViolations } from './find-violations.ts';
import { type Access, makeAccess } from './fixtures/access-fixture.ts';
import { refuse } from './fixtures/access-server.ts';
import { fluidFinding, makeClosedPacket, makePacket } from './fixtures/packet-fixture.ts';
import { makeRows } from './fixtures/ranking-fixture.ts';
import { expectToFit, headOf, openAccess, pathOf } from './open-access.ts';
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
  packets?: Packet[];
  role?: 'planner' | 'shop' | 'analyst';
}

async function open(path: string, { packets = [makePacket()], role = 'shop', ...options }: Options = {}) {
  const access = makeAccess({ role });
  access.packets = packets;
  const opened = await openAccess(browser, path, { access, rows: makeRows(8), ...options });
  return { ...opened, open: opened.page.locator('[data-open="true"]') };
}

/** Answers one call of packet 7 as the test says, over whatever else the page is served. */
const answer = (page: Page, path: string, say: (route: Route) => Promise<void>) =>
  page.route(`${origin}/api/packets/7/${path}`, say);
const asJson = (route: Route) => route.request().postDataJSON() as Record<string, unknown>;
const decline = (route: Route, detail: string) => {
  const { status, json } = refuse(409, 'conflict', detail);
  return route.fulfill({ status, contentType: 'application/problem+json', json });
};

const currentFinding = {
  ...fluidFinding,
  id: 42,
  step: 'solenoid_current' as const,
  result: 'current_right' as const,
  words: 'Current changes by 3.9 A, as it should.',
};
/** The fixture's packet once the current was recorded. */
function withCurrent(access: Access): void {
  access.packets = access.packets.map((one) => ({
    ...one,
    steps: one.steps.map((step) =>
      step.step === 'solenoid_current' ? { ...step, state: 'done' as const, finding: currentFinding } : step,
    ),
  }));
}

describe('a packet', () => {
  it.each([
    [390, 'light', makePacket()],
    [1280, 'dark', makePacket()],
    [1920, 'light', makeClosedPacket()],
    [390, 'dark', makeClosedPacket()],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme, packet) => {
    const { page, complaints } = await open(`/packets/${packet.id}`, {
      width,
      colorScheme,
      packets: [packet],
    });
    await headOf(page, packet.vehicle).waitFor();
    await page.locator('[data-chart="ready"]').first().waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('opens at the step that is next, or at the one of its address', async () => {
    const { page, open: panel } = await open('/packets/7');
    await panel.getByRole('heading', { name: 'Solenoid current at the fuse' }).waitFor();
    await page
      .getByRole('list', { name: 'Test steps' })
      .getByRole('button', { name: /Road test/ })
      .press('Enter');
    await panel.getByText('The fleet’s own readings show the slip.').waitFor();
    expect(new URL(page.url()).search).toBe('?step=road_test');
    await page.goto(`${origin}/packets/7?step=pan`);
    await panel.getByRole('heading', { name: 'Debris in the pan' }).waitFor();
    await page.close();
  });

  it('shows a finding with who, when and by which rule, and lets the step be done again', async () => {
    const { page, open: panel } = await open('/packets/7?step=fluid');
    await panel.getByText('Level, colour and smell are right.').waitFor();
    await panel.getByText('Kasimir Dell,').waitFor();
    expect(await panel.getByRole('form').count()).toBe(0);
    await panel.getByText('The rule that judged it').click();
    await panel.getByText('common practice, no source').first().waitFor();
    await press(panel, 'Do it again');
    await panel.getByRole('form', { name: /Fluid/ }).waitFor();
    await page.close();
  });

  it('offers the analyst nothing to change', async () => {
    const { page } = await open('/packets/7', {
      role: 'analyst',
      packets: [makePacket({ may_report: false, may_share: false })],
    });
    await headOf(page, 'B-1204').waitFor();
    expect(
      await page.getByRole('button', { name: /^(Record|Close the job|Add a part|Make a link)$/ }).count(),
    ).toBe(0);
    await page.close();
  });

  it('that is not there says so', async () => {
    const { page } = await open('/packets/99');
    await headOf(page, 'No such packet').waitFor();
    await page.close();
  });
});

describe('a test step', () => {
  it('asks what is missing, and takes a decimal comma', async () => {
    const { page, access, open: panel } = await open('/packets/7', { width: 390 });
    const sent: unknown[] = [];
    await answer(page, 'findings', (route) => {
      sent.push(asJson(route));
      withCurrent(access);
      return route.fulfill({ json: { kind: 'stored', finding: currentFinding } });
    });
    await press(panel, 'Record');
    await panel.getByText('A figure is needed.').first().waitFor();
    expect(sent).toEqual([]);
    await panel.getByLabel('Current, commanded off').fill('0');
    await panel.getByLabel('Current, commanded on').fill('3,9');
    await press(panel, 'Record');
    await panel.getByText('Current changes by 3.9 A').waitFor();
    await panel.getByText('Recorded.').waitFor();
    expect(sent).toEqual([
      { step: 'solenoid_current', off_a: 0, on_a: 3.9, click: 'not_listened', notes: '' },
    ]);
    await page.close();
  });

  it('puts the server’s question in place: the suggestion fills the fields and goes out', async () => {
    const { page, access, open: panel } = await open('/packets/7', { width: 390 });
    const sent: Record<string, unknown>[] = [];
    const question = {
      field: 'on_a',
      message: 'Is 3,900 in milliamps?',
      suggestion: { off_a: 0, on_a: 3.9 },
      suggestion_says: 'Yes: 3.9 A',
    };
    await answer(page, 'findings', (route) => {
      const input = asJson(route);
      sent.push(input);
      if (input.on_a === 3900 && input.as_measured !== true)
        return route.fulfill({ json: { kind: 'asked', questions: [question] } });
      withCurrent(access);
      return route.fulfill({ json: { kind: 'stored', finding: currentFinding } });
    });
    const fill = async () => {
      await panel.getByLabel('Current, commanded off').fill('0');
      await panel.getByLabel('Current, commanded on').fill('3900');
      await press(panel, 'Record');
    };
    await fill();
    const note = panel.getByRole('alertdialog', { name: 'A question before this is stored' });
    await note.getByText('Is 3,900 in milliamps?').waitFor();
    // At the top nothing lies under the row of parts that stays in sight.
    await page.evaluate(() => window.scrollTo(0, 0));
    expect(await findViolations(page)).toEqual([]);
    await page.keyboard.press('Escape');
    await note.waitFor({ state: 'detached' });
    expect(await panel.getByLabel('Current, commanded on').inputValue()).toBe('3900');
    await press(panel, 'Record');
    await press(note, 'Yes: 3.9 A');
    await panel.getByText('Recorded.').waitFor();
    expect(sent.at(-1)).toMatchObject({ off_a: 0, on_a: 3.9 });
    await press(panel, 'Do it again');
    await fill();
    await press(note, 'No, that is what I measured');
    await expect.poll(() => sent.at(-1)).toMatchObject({ on_a: 3900, as_measured: true });
    await page.close();
  });

  it('keeps what is typed over a lost connection and a reload, and sends it with one press', async () => {
    const { page, access, open: panel } = await open('/packets/7', { width: 390 });
    await panel.getByLabel('Current, commanded off').fill('0');
    await panel.getByLabel('Current, commanded on').fill('3.9');
    await panel.getByText('Kept on this device, not sent yet').waitFor();
    await page.context().setOffline(true);
    await answer(page, 'findings', (route) => route.abort());
    await press(panel, 'Record');
    await panel.getByRole('alert').getByText('Kept on this device, not sent yet').waitFor();
    await page.context().setOffline(false);
    await page.unroute(`${origin}/api/packets/7/findings`);
    await page.reload();
    await panel.getByText('Kept on this device, not sent yet').waitFor();
    expect(await panel.getByLabel('Current, commanded on').inputValue()).toBe('3.9');
    await answer(page, 'findings', (route) => {
      withCurrent(access);
      return route.fulfill({ json: { kind: 'stored', finding: currentFinding } });
    });
    await press(panel, 'Record');
    await panel.getByText('Recorded.').waitFor();
    expect(
      await page.evaluate(() => Object.keys(localStorage).filter((key) => key.includes('draft'))),
    ).toEqual([]);
    await page.close();
  });

  it('that somebody closed meanwhile is not lost: it says who, and shows what was typed', async () => {
    const { page, access, open: panel } = await open('/packets/7', { width: 390 });
    await answer(page, 'findings', (route) => decline(route, 'Tobin Ashgrove closed this job at 08:10.'));
    await panel.getByLabel('Current, commanded off').fill('0');
    await panel.getByLabel('Current, commanded on').fill('3.9');
    await press(panel, 'Record');
    await panel.getByText('Tobin Ashgrove closed this job at 08:10.').waitFor();
    access.packets = [makeClosedPacket({ id: 7 })];
    await press(panel, 'Look again');
    const left = page.getByRole('region', { name: 'Not sent' });
    await left.getByText('on a: 3.9').waitFor();
    await press(left, 'Forget this');
    await left.waitFor({ state: 'detached' });
    await page.close();
  });
});

describe('the repair', () => {
  it('sends one section with the others as they are, and never over what somebody else changed unseen', async () => {
    const { page, access } = await open('/packets/7');
    const sent: Record<string, unknown>[] = [];
    const form = page.getByRole('form', { name: 'What was wrong' });
    await form.getByLabel('What turned out to be wrong').selectOption('lining_worn');
    // Meanwhile another person notes a cause, and a part.
    const theirs = reportContent.parse({
      parts: [{ kind: 'fluid_and_filter', source: 'new' }],
      teardown: { cause: 'valve_stuck' },
    });
    await answer(page, 'report', (route) => {
      const input = asJson(route);
      sent.push(input);
      const [stored] = access.packets;
      if (input.version !== stored!.version)
        return decline(route, 'Tobin Ashgrove changed the report at 08:10.');
      const { version: _, ...report } = input;
      access.packets = [{ ...stored!, version: stored!.version + 1, report: reportContent.parse(report) }];
      return route.fulfill({ json: access.packets[0] });
    });
    access.packets = [{ ...makePacket(), version: 4, report: theirs }];
    await press(form, 'Save what was wrong');
    await form.getByText('Tobin Ashgrove changed the report at 08:10.').waitFor();
    await press(form, 'Look again');
    await form.getByText('Somebody else changed this meanwhile.').waitFor();
    await form
      .getByText('Valve stuck')
      .and(form.locator('p'))
      .or(form.locator('p', { hasText: 'Valve stuck' }))
      .first()
      .waitFor();
    expect(await form.getByLabel('What turned out to be wrong').inputValue()).toBe('lining_worn');
    await press(form, 'Send mine in its place');
    await form.getByText('Somebody else changed this meanwhile.').waitFor({ state: 'detached' });
    await expect.poll(() => sent.length).toBe(2);
    expect(sent.at(-1)).toMatchObject({
      version: 4,
      parts: theirs.parts,
      teardown: { cause: 'lining_worn' },
    });
    await page.close();
  });

  it('keeps the job open while something typed is not saved', async () => {
    const { page } = await open('/packets/7');
    await page.getByRole('button', { name: 'Add a part' }).press('Enter');
    const close = page.getByRole('form', { name: 'Close the job' });
    await close.getByText('is not saved yet').waitFor();
    expect(await close.getByRole('button', { name: 'Close the job' }).isDisabled()).toBe(true);
    await press(page.getByRole('form', { name: 'Parts' }), 'Leave it as it was');
    await expect.poll(() => close.getByRole('button', { name: 'Close the job' }).isDisabled()).toBe(false);
    await page.close();
  });
});

describe('a closed job', () => {
  it('says what came of it, and still takes what became of the old unit', async () => {
    const { page, access } = await open('/packets/6', { packets: [makeClosedPacket()] });
    const section = page.getByRole('region', { name: 'What came of it' });
    await section.getByText('life 3 began').waitFor();
    await section.getByText('Closed without the cooler record that was due.').waitFor();
    await section.getByRole('heading', { name: /as on healthy vehicles/ }).waitFor();
    const sent: unknown[] = [];
    await page.route(`${origin}/api/packets/6/core`, (route) => {
      sent.push(asJson(route));
      return route.fulfill({ json: access.packets[0] });
    });
    await page.getByLabel('returned', { exact: true }).click();
    await expect.poll(() => sent).toEqual([{ part: 0, core: 'returned' }]);
    await page.close();
  });
});

describe('a link', () => {
  const secret = `packet_${'x'.repeat(43)}`;
  const serveLink = async (page: Page, packet: Packet) => {
    const headers: Record<string, string>[] = [];
    await page.route(`${origin}/api/packet-by-link*`, async (route) => {
      headers.push(await route.request().allHeaders());
      return route.fulfill({ json: packet });
    });
    return headers;
  };

  it('opens one packet without an account: its secret leaves the address bar and goes with each call', async () => {
    const { page, calls, complaints } = await open('/account');
    const headers = await serveLink(page, makePacket({ may_share: false }));
    // What the screen before still asks for must not count.
    await page.goto('about:blank');
    calls.length = 0;
    await page.goto(`${origin}/shared#${secret}`);
    await headOf(page, 'B-1204').waitFor();
    await expect.poll(() => page.url()).toBe(`${origin}/shared`);
    expect(headers[0]).toMatchObject({ authorization: `Bearer ${secret}` });
    expect(headers[0]).not.toHaveProperty('cookie');
    await page.locator('[data-chart="ready"]').first().waitFor();
    expect(calls).not.toContain('GET /api/session');
    expect(await page.getByRole('navigation', { name: 'Screens' }).count()).toBe(0);
    expect(await page.getByRole('link', { name: /Vehicle B-1204|B-1077/ }).count()).toBe(0);
    expect(await findViolations(page)).toEqual([]);
    await page.getByRole('list', { name: 'Test steps' }).getByRole('button', { name: /Pan/ }).press('Enter');
    await expect.poll(() => page.url()).toBe(`${origin}/shared?step=pan`);
    await page.reload();
    await headOf(page, 'B-1204').waitFor();
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('that has ended says so in the server’s words', async () => {
    const { page } = await open('/account');
    await page.route(`${origin}/api/packet-by-link*`, (route) => {
      const { status, json } = refuse(401, 'unauthorized', 'This link expired on 2 Mar 2026.');
      return route.fulfill({ status, contentType: 'application/problem+json', json });
    });
    await page.goto(`${origin}/shared#${secret}`);
    await page.getByText('This link expired on 2 Mar 2026.').waitFor();
    await page.close();
  });

  it('without its long part is not complete', async () => {
    const { page } = await open('/shared');
    await headOf(page, 'The link is not complete').waitFor();
    await page.close();
  });

  it('is made for somebody, shown once, and revoked', async () => {
    const { page } = await open('/packets/7', { role: 'planner' });
    const link = {
      id: 3,
      label: 'Quenby Rebuilds',
      may_report: true,
      made_at: '2026-03-04T08:30:00Z',
      made_by: 'Maren Oduya',
      expires_at: '2026-03-18T08:30:00Z',
      revoked_at: null,
      revoked_by: null,
      state: 'works',
      openings: [
        { at: '2026-03-04T08:31:00Z', from: '10.20.0.14', what: 'the packet', browser: 'a browser' },
      ],
    };
    const made: unknown[] = [];
    let links: unknown[] = [];
    await page.route(`${origin}/api/packets/7/links*`, (route) => {
      if (route.request().method() === 'GET') return route.fulfill({ json: links });
      made.push(asJson(route));
      links = [link];
      return route.fulfill({ json: { link, address: `${origin}/shared#${secret}` } });
    });
    await page.route(`${origin}/api/packets/7/links/3`, (route) => {
      links = [{ ...link, state: 'revoked', revoked_at: '2026-03-04T08:40:00Z', revoked_by: 'Maren Oduya' }];
      return route.fulfill({ status: 204 });
    });
    const section = page.getByRole('region', { name: 'Links' });
    await press(section, 'Make a link');
    await press(section, 'Make the link');
    await section.getByText('Say whom it is for.').waitFor();
    await section.getByLabel('Whom it is for').fill('Quenby Rebuilds');
    await section.getByRole('checkbox', { name: /May report/ }).check();
    await press(section, 'Make the link');
    expect(await section.getByLabel('Address of the link').inputValue()).toBe(`${origin}/shared#${secret}`);
    expect(made).toEqual([{ label: 'Quenby Rebuilds', days: 14, may_report: true }]);
    await press(section, 'I have it');
    expect(await section.getByLabel('Address of the link').count()).toBe(0);
    await section.getByText('Opened once').click();
    await section.getByText('from 10.20.0.14').waitFor();
    await press(section, 'Revoke');
    await press(page.getByRole('dialog', { name: /Revoke the link/ }), 'Revoke');
    await section.getByText('revoked 4 Mar 2026').waitFor();
    await page.close();
  });
});

describe('the list of packets', () => {
  const packets = [makePacket(), makeClosedPacket()];

  it.each([
    [390, 'light'],
    [1280, 'dark'],
  ] as const)('passes WCAG 2.2 AA and fits at %i px, %s', async (width, colorScheme) => {
    const { page, complaints } = await open('/packets', { width, colorScheme, packets });
    await page.getByText('The repair held').waitFor();
    await page.getByText('Next Solenoid current at the fuse').waitFor();
    expect(await findViolations(page)).toEqual([]);
    await expectToFit(page);
    expect(complaints).toEqual([]);
    await page.close();
  });

  it('keeps in its address which jobs are shown', async () => {
    const { page } = await open('/packets', { packets, role: 'planner' });
    await page.getByRole('radio', { name: 'closed' }).check({ force: true });
    await page.getByRole('heading', { name: /Open jobs/ }).waitFor({ state: 'detached' });
    expect(new URL(page.url()).search).toBe('?state=closed');
    await page.getByRole('link', { name: 'T-2041' }).click();
    await headOf(page, 'T-2041').waitFor();
    await page.close();
  });

  it('gives the shop what was sent without a packet, with the press that opens one', async () => {
    const { page, access } = await open('/packets', { packets });
    const button = page.getByRole('button', { name: /^Open packet of/ }).first();
    await button.press('Enter');
    await expect.poll(() => pathOf(page)).toMatch(/^\/packets\/1\d\d$/);
    expect(access.packets.length).toBe(3);
    await page.close();
  });
});
