import type { Browser, Page } from 'playwright-core';
import { launchBrowser } from '#tests/helpers/launch-browser.ts';
import { summarise } from './summarise.ts';

interface Figure {
  figure: string;
  value: Record<string, number>;
}

const WIDTH_PX = 1280;
const HEIGHT_PX = 900;
/** A quick turn of a wheel moves about so much a frame. */
const STEP_PX = 120;
const ROUNDS = 7;

/** Opens, scrolls, filters and ticks the list of many vehicles in a browser, as a planner would; tells as it goes. */
export async function scrollMany(url: string, cookie: string, tell: (one: Figure) => void): Promise<void> {
  const browser = await launchBrowser();
  try {
    const opened: number[] = [];
    for (let i = 0; i < ROUNDS; i++) {
      const page = await newPage(browser, url, cookie);
      opened.push(await timed(() => openList(page, url)));
      await page.close();
    }
    tell({ figure: 'from the address to the first row, nothing in caches', value: summarise(opened) });
    const page = await newPage(browser, url, cookie);
    await openList(page, url);
    tell({ figure: 'frames while the whole list is scrolled', value: await scrollDown(page) });
    tell({ figure: 'frames while it is scrolled again, all of it loaded', value: await scrollDown(page) });
    await page.evaluate(() => window.scrollTo(0, 0));
    await page.getByLabel(/^Choose the first/).press('Space');
    await page.getByText(/vehicles chosen$/).waitFor();
    tell({ figure: 'frames with 1,000 vehicles ticked', value: await scrollDown(page, 600) });
    await page.evaluate(() => window.scrollTo(0, 0));
    await page.locator('[data-index="0"]').waitFor();
    const ticked: number[] = [];
    for (let i = 0; i < ROUNDS; i++) ticked.push(await tickNext(page, i));
    tell({ figure: 'from a press to the tick, 1,000 ticked', value: summarise(ticked) });
    for await (const one of answerChoices(page, url)) tell(one);
  } finally {
    await browser.close();
  }
}

async function newPage(browser: Browser, url: string, cookie: string): Promise<Page> {
  const context = await browser.newContext({ viewport: { width: WIDTH_PX, height: HEIGHT_PX } });
  await context.addCookies(
    cookie.split('; ').map((pair) => {
      const at = pair.indexOf('=');
      return { name: pair.slice(0, at), value: pair.slice(at + 1), url };
    }),
  );
  // What runs in the page is compiled with a helper that only this process has.
  await context.addInitScript('globalThis.__name = (named) => named;');
  return context.newPage();
}

async function openList(page: Page, url: string): Promise<void> {
  await page.goto(url);
  await page.locator('[data-index="0"]').waitFor();
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const started = performance.now();
  await work();
  return performance.now() - started;
}

/** Scrolls to the end, a step a frame, as long as the list grows; answers how long the frames took. */
async function scrollDown(
  page: Page,
  mostFrames = Number.POSITIVE_INFINITY,
): Promise<Record<string, number>> {
  const { frames, waitedMs } = await page.evaluate(
    ({ stepPx, most }) =>
      new Promise<{ frames: number[]; waitedMs: number }>((settle) => {
        const times: number[] = [];
        let last: number | null = null;
        let waited = 0;
        let quiet = 0;
        window.scrollTo(0, 0);
        const isWhole = () =>
          Number(document.querySelector('[data-index]:last-of-type')?.getAttribute('data-index') ?? 0) + 2 >=
          Number(document.querySelector('table')?.getAttribute('aria-rowcount'));
        const step = (now: number) => {
          if (last !== null) times.push(now - last);
          last = now;
          const before = window.scrollY;
          window.scrollBy(0, stepPx);
          if (window.scrollY > before) quiet = 0;
          else {
            // At the end of what is loaded: the next page is on its way, or there is none.
            waited += times.at(-1) ?? 0;
            quiet += 1;
          }
          if (times.length >= most || (quiet > 30 && isWhole()) || quiet > 1800)
            settle({ frames: times.slice(5), waitedMs: waited });
          else requestAnimationFrame(step);
        };
        requestAnimationFrame(step);
      }),
    { stepPx: STEP_PX, most: mostFrames },
  );
  const over = (ms: number) => frames.filter((one) => one > ms).length;
  return {
    ...summarise(frames),
    frames: frames.length,
    'over 50 ms': over(50),
    waited_ms: Math.round(waitedMs),
  };
}

/** From a choice in the filters to the rows that it asks for. */
async function* answerChoices(page: Page, url: string): AsyncGenerator<Figure> {
  const choices: Record<string, [label: string, option: string]> = {
    'grade and booking: from the choice to its rows': ['Booking', 'without a booking'],
    'got worse: from the choice to its rows': ['Since a week ago', 'got worse'],
    'another order: from the choice to its rows': ['Order', 'most slip'],
    'another horizon: from the choice to its rows': ['Horizon', '10,000 km'],
  };
  for (const [figure, [label, option]] of Object.entries(choices)) {
    const times: number[] = [];
    for (let i = 0; i < ROUNDS; i++) {
      await openList(page, url);
      await page.evaluate(() => window.scrollTo(0, 0));
      times.push(
        await timed(async () => {
          const answered = page.waitForResponse((one) => new URL(one.url()).pathname === '/api/ranking');
          await page.getByLabel(label, { exact: true }).selectOption(option);
          await answered;
          await page.locator('[data-waiting="false"] [data-index="0"]').waitFor();
          await page.evaluate(() => new Promise((settle) => requestAnimationFrame(settle)));
        }),
      );
    }
    yield { figure, value: summarise(times) };
  }
}

async function tickNext(page: Page, i: number): Promise<number> {
  const box = page.locator('[data-index] input[type="checkbox"]').nth(i + 2);
  const before = await box.isChecked();
  return timed(async () => {
    await box.press('Space');
    await page.waitForFunction(
      ({ nth, was }) =>
        document.querySelectorAll<HTMLInputElement>('[data-index] input[type="checkbox"]')[nth]?.checked !==
        was,
      { nth: i + 2, was: before },
    );
  });
}
