import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const source = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** Of a long table axe is shown so many rows: of a thousand alike it took most of a minute, and judged no more. */
const rowsJudged = 24;

/** What axe finds on a page against WCAG 2.2 AA and good practice, with the first place of each. */
export async function findViolations(page: Page) {
  await page.evaluate(await source);
  return page.evaluate(async (rowsJudged) => {
    const putBack = [...document.querySelectorAll('tbody')].map((body) => {
      const rest = [...body.children].slice(rowsJudged);
      for (const row of rest) row.remove();
      return () => body.append(...rest);
    });
    const run = Reflect.get(window, 'axe').run as (
      context: Document,
      options: object,
    ) => Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await run(document, {
      runOnly: { type: 'tag', values: tags },
      resultTypes: ['violations'],
    }).finally(() => {
      for (const one of putBack) one();
    });
    return found.violations.map(({ id, nodes }) => ({
      id,
      first: nodes[0]?.html.slice(0, 200),
      why: nodes[0]?.failureSummary,
      n: nodes.length,
    }));
  }, rowsJudged);
}
