import { readFile } from 'node:fs/promises';
import { createRequire } from 'node:module';
import type { Page } from 'playwright-core';

const source = readFile(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');

/** What axe finds on a page against WCAG 2.2 AA and good practice, with the first place of each. */
export async function findViolations(page: Page) {
  await page.evaluate(await source);
  return page.evaluate(async () => {
    const run = Reflect.get(window, 'axe').run as (
      context: Document,
      options: object,
    ) => Promise<{ violations: { id: string; nodes: { html: string; failureSummary: string }[] }[] }>;
    const tags = ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'];
    const found = await run(document, { runOnly: { type: 'tag', values: tags } });
    return found.violations.map(({ id, nodes }) => ({
      id,
      first: nodes[0]?.html.slice(0, 200),
      why: nodes[0]?.failureSummary,
      n: nodes.length,
    }));
  });
}
