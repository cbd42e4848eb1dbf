import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { Page, Route } from 'playwright-core';
import type { RankingRow } from '#server/contract/ranking.ts';
import { buildScreens } from './build-screens.ts';
import { answerFrom } from './fixtures/fixture-server.ts';

export const origin = 'http://slipdrift.test';
const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/** Lets a page see the built screens and answers of the contract's shape, with no server and no network. */
export async function serveFixture(page: Page, rows: readonly RankingRow[], delayMs = 0): Promise<void> {
  const built = await buildScreens();
  await page.route(`${origin}/**`, async (route) => {
    const address = new URL(route.request().url());
    if (address.pathname.startsWith('/api/')) return answerApi(route, rows, address, delayMs);
    const name = extname(address.pathname) === '' ? '/index.html' : address.pathname;
    const body = await readFile(join(built, name)).catch(() => null);
    if (body === null) return route.fulfill({ status: 404, body: 'no such file' });
    return route.fulfill({ body, contentType: types[extname(name)] ?? 'application/octet-stream' });
  });
}

async function answerApi(
  route: Route,
  rows: readonly RankingRow[],
  address: URL,
  delayMs: number,
): Promise<void> {
  if (delayMs > 0) await new Promise((done) => setTimeout(done, delayMs));
  const answer = answerFrom(rows, address);
  if (answer !== null) return route.fulfill({ json: answer });
  return route.fulfill({
    status: 404,
    contentType: 'application/problem+json',
    body: JSON.stringify({
      type: 'about:blank',
      title: 'Not found',
      status: 404,
      detail: `Nothing is kept under ${address.pathname}.`,
      code: 'not_found',
      errors: [],
    }),
  });
}
