import type { Page } from 'playwright-core';

/** A quick turn of a wheel moves about so much a frame. */
const STEP_PX = 120;
/** Of a screen that shows 60 a second. */
const FRAME_MS = 1000 / 60;

export interface Frames {
  frames: number;
  /** that the screen showed nothing new in, though something had moved */
  dropped: number;
  longestMs: number;
  /** at the end of what was loaded, for the next page */
  waitedMs: number;
}

/** Scrolls to the end, a step a frame, as long as the list grows; answers how long the frames took. */
export async function scrollDown(page: Page, mostFrames = Number.POSITIVE_INFINITY): Promise<Frames> {
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
  return {
    frames: frames.length,
    dropped: frames.reduce((sum, ms) => sum + Math.max(0, Math.round(ms / FRAME_MS) - 1), 0),
    longestMs: Math.max(...frames),
    waitedMs,
  };
}
