import type { Page } from 'playwright-core';
import { timed } from '#tests/bench/timing.ts';
import { openList } from './open-list.ts';

const CHOICES = 5;

/** From a choice in the filters to the rows that it asks for. */
export async function* answerChoices(
  page: Page,
  url: string,
): AsyncGenerator<{ figure: string; times: number[] }> {
  const choices: Record<string, [label: string, option: string]> = {
    'grade and booking: from the choice to its rows': ['Booking', 'without a booking'],
    'got worse: from the choice to its rows': ['Since a week ago', 'got worse'],
    'another order: from the choice to its rows': ['Order', 'most slip'],
    'another horizon: from the choice to its rows': ['Horizon', '10,000 km'],
  };
  for (const [figure, [label, option]] of Object.entries(choices)) {
    const times: number[] = [];
    for (let i = 0; i < CHOICES; i++) {
      await openList(page, url);
      await page.evaluate(() => window.scrollTo(0, 0));
      times.push(
        1000 *
          (await timed(async () => {
            const answered = page.waitForResponse((one) => new URL(one.url()).pathname === '/api/ranking');
            await page.getByLabel(label, { exact: true }).selectOption(option);
            await answered;
            await page.locator('[data-waiting="false"] [data-index="0"]').waitFor();
            await page.evaluate(() => new Promise((settle) => requestAnimationFrame(settle)));
          })),
      );
    }
    yield { figure, times };
  }
}

export async function tickNext(page: Page, i: number): Promise<number> {
  const box = page.locator('[data-index] input[type="checkbox"]').nth(i + 2);
  const before = await box.isChecked();
  return (
    1000 *
    (await timed(async () => {
      await box.press('Space');
      await page.waitForFunction(
        ({ nth, was }) =>
          document.querySelectorAll<HTMLInputElement>('[data-index] input[type="checkbox"]')[nth]?.checked !==
          was,
        { nth: i + 2, was: before },
      );
    }))
  );
}
