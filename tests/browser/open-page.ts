import { readFile } from 'node:fs/promises';
import { extname, join } from 'node:path';
import type { Page, Route } from 'playwright-core';
import { type RankingRow, rankingUnitsQuery } from '#server/contract/ranking.ts';
import { buildScreens } from './build-screens.ts';
import { type Access, makeAccess } from './fixtures/access-fixture.ts';
import { type Answer, answerAccess, refuse } from './fixtures/access-server.ts';
import { answerFrom, shownRows } from './fixtures/fixture-server.ts';
import { answerList } from './fixtures/list-answers.ts';
import { answerPackets } from './fixtures/packet-server.ts';

export const origin = 'http://slipdrift.test';
const types: Record<string, string> = {
  '.html': 'text/html; charset=utf-8',
  '.js': 'text/javascript',
  '.css': 'text/css',
  '.svg': 'image/svg+xml',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

/**
 * Lets a page see the built screens and answers of the contract's shape, with no server and no network. A planner is
 * signed in unless `access` says otherwise; calls change it.
 */
export async function serveFixture(
  page: Page,
  rows: readonly RankingRow[],
  access: Access = makeAccess(),
): Promise<void> {
  const built = await buildScreens();
  await page.route(`${origin}/**`, async (route) => {
    const address = new URL(route.request().url());
    if (address.pathname.startsWith('/api/')) return answerApi(route, rows, access);
    const name = extname(address.pathname) === '' ? '/index.html' : address.pathname;
    const body = await readFile(join(built, name)).catch(() => null);
    if (body === null) return route.fulfill({ status: 404, body: 'no such file' });
    return route.fulfill({ body, contentType: types[extname(name)] ?? 'application/octet-stream' });
  });
}

async function answerApi(route: Route, rows: readonly RankingRow[], access: Access): Promise<void> {
  const request = route.request();
  const address = new URL(request.url());
  const path = address.pathname.replace(/^\/api/, '');
  const call = {
    method: request.method(),
    path,
    query: Object.fromEntries(address.searchParams),
    body: request.postDataJSON(),
  };
  const query = rankingUnitsQuery.safeParse(call.query).data ?? {};
  const found =
    answerAccess(access, call) ??
    answerPackets(access, call) ??
    answerList(rows, access, call, shownRows, query) ??
    findAnswer(rows, address, access);
  const {
    status,
    json,
    headers = {},
  } = found ?? refuse(404, 'not_found', `Nothing is kept under ${address.pathname}.`);
  if (json === undefined) return route.fulfill({ status });
  const contentType = status < 400 ? 'application/json' : 'application/problem+json';
  return route.fulfill({ status, contentType, headers, body: JSON.stringify(json) });
}

function findAnswer(rows: readonly RankingRow[], address: URL, access: Access): Answer | null {
  const json = answerFrom(rows, address, access.atShop);
  return json === null ? null : { status: 200, json };
}
