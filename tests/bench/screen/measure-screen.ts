import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import type { Browser } from 'playwright-core';
import type { Tell } from '#tests/bench/report.ts';
import { inTurn, median, timed } from '#tests/bench/timing.ts';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { answerChoices, tickNext } from './choose-in-list.ts';
import { measurePayload } from './measure-payload.ts';
import { openList, openPage, readLargestPaint } from './open-list.ts';
import { type Frames, scrollDown } from './scroll-list.ts';

const ROUNDS = 7;
const MOST_TICKED = 1_000;
const PLAIN =
  '<!doctype html><title>plain</title><p style="font-size:40px">One line of text, and nothing else.';

/** The list of the whole fleet in Chromium, as a planner sees it first, scrolls, chooses and ticks. */
export async function measureScreen(
  url: string,
  cookie: string,
  vehicles: number,
  tell: Tell,
): Promise<void> {
  for (const { figure, value } of await measurePayload(url)) tell({ figure, value, unit: 'kB' });
  const browser = await launchBrowser();
  const plain = createServer((_, answer) => answer.setHeader('content-type', 'text/html').end(PLAIN));
  await new Promise<void>((settle) => plain.listen(0, '127.0.0.1', settle));
  try {
    const plainUrl = `http://127.0.0.1:${(plain.address() as AddressInfo).port}`;
    const rows: number[] = [];
    const paint = await inTurn(
      ROUNDS,
      () =>
        onPage(browser, url, cookie, async (page) => {
          rows.push(1000 * (await timed(() => openList(page, url))));
          return readLargestPaint(page);
        }),
      () =>
        onPage(browser, url, cookie, async (page) => {
          await page.goto(plainUrl);
          return readLargestPaint(page);
        }),
    );
    tell({
      figure: `first screen, ${vehicles} vehicles, largest contentful paint, nothing in caches`,
      value: paint.first,
      unit: 'ms',
      reference: { what: 'a page of one line, from a server that does nothing else', value: paint.second },
      ratio: paint.ratio,
      wanted: { at_most: 1500 },
    });
    tell({ figure: 'first screen, from the address to the first row', value: median(rows), unit: 'ms' });
    await measureUse(browser, url, cookie, vehicles, tell);
  } finally {
    await browser.close();
    plain.close();
  }
}

async function measureUse(browser: Browser, url: string, cookie: string, vehicles: number, tell: Tell) {
  await onPage(browser, url, cookie, async (page) => {
    await openList(page, url);
    const first = await scrollDown(page);
    tellFrames(tell, 'while the whole list is scrolled', first);
    tell({ figure: 'waiting for rows on the way', value: first.waitedMs, unit: 'ms' });
    tellFrames(tell, 'while it is scrolled again, all of it loaded', await scrollDown(page));
    await page.evaluate(() => window.scrollTo(0, 0));
    if (vehicles >= MOST_TICKED) {
      await page.getByLabel(/^Choose the first/).press('Space');
      await page.getByText(/vehicles chosen$/).waitFor();
      tellFrames(tell, `with ${MOST_TICKED} vehicles ticked`, await scrollDown(page, 600));
      await page.evaluate(() => window.scrollTo(0, 0));
      await page.locator('[data-index="0"]').waitFor();
    }
    const ticked: number[] = [];
    for (let i = 0; i < ROUNDS; i++) ticked.push(await tickNext(page, i));
    tell({ figure: 'from a press to the tick', value: median(ticked), unit: 'ms' });
    for await (const { figure, times } of answerChoices(page, url))
      tell({ figure, value: median(times), unit: 'ms' });
    return 0;
  });
}

function tellFrames(tell: Tell, when: string, { frames, dropped, longestMs }: Frames): void {
  tell({
    figure: `frames dropped ${when}, 120 px a frame`,
    value: dropped,
    unit: 'frames',
    reference: { what: 'frames in all', value: frames },
    wanted: { at_most: 0 },
  });
  tell({ figure: `longest frame ${when}`, value: longestMs, unit: 'ms' });
}

async function onPage(
  browser: Browser,
  url: string,
  cookie: string,
  work: (page: Awaited<ReturnType<typeof openPage>>) => Promise<number>,
): Promise<number> {
  const page = await openPage(browser, url, cookie);
  try {
    return await work(page);
  } finally {
    await page.context().close();
  }
}
