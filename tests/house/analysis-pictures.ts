import type { Page } from 'playwright-core';
import { replay, replayList } from '#server/contract/replay.ts';
import type { DemoPerson } from '#tests/helpers/sign-in-demo.ts';
import type { Picture } from './picture.ts';

const DAY_MS = 86_400_000;
/** Four months of the whole fleet: some two minutes. */
const DAYS = 120;

/** What the analyst sees, with the last replay of the demo, or a first one. */
export async function listAnalysisPictures(
  { ask }: DemoPerson,
  platform: string,
  vehicle: string,
  isWanted: (picture: Picture) => boolean,
): Promise<Picture[]> {
  const as = 'analyst' as const;
  const wide = { width: 1280, height: 900, as };
  const phone = { width: 390, height: 844, as };
  const suppliers = '/analysis/lives?group_by=supplier&source=rebuilt&records=fitting';
  const atlas = `/platforms/${encodeURIComponent(platform)}/atlas?vehicle=${encodeURIComponent(vehicle)}`;
  const told = (heading: string) => `h2:has-text("${heading}")`;
  const pictures = [
    { name: 'lives', address: suppliers, ...wide, act: settle },
    { name: 'lives-paper', address: suppliers, ...wide, act: settle, from: told('When a tenth') },
    { name: 'lives-phone', address: suppliers, ...phone, act: settle },
    { name: 'workbench', address: '/analysis/workbench?example=shock-absorbers', ...wide, act: settle },
    { name: 'atlas', address: atlas, ...wide, act: settle },
    { name: 'atlas-phone', address: atlas, ...phone, act: settle },
  ];
  const replayed: Picture[] = [
    { name: 'replay-form', address: '/analysis/replay', ...wide, ready: 'main form' },
    { name: 'replay', address: '/analysis/replay', ...wide, act: settle },
    {
      name: 'replay-chances',
      address: '/analysis/replay',
      ...wide,
      act: settle,
      from: 'h2:has-text("Chances, stated and seen")',
    },
    { name: 'replay-dark', address: '/analysis/replay', ...wide, ground: 'dark', act: settle },
    { name: 'replay-phone', address: '/analysis/replay', ...phone, act: settle },
  ];
  if (!replayed.some(isWanted)) return pictures;
  const id = await findReplay(ask);
  const shown = replayed.map((one) =>
    one.name === 'replay-form' ? one : { ...one, address: `${one.address}?id=${id}` },
  );
  return [...pictures, ...shown];
}

async function findReplay(ask: DemoPerson['ask']): Promise<number> {
  const { replays } = replayList.parse(await (await ask('/api/analysis/replays')).json());
  const known = replays.find(({ state, request }) => state === 'done' && request.platforms.length === 0);
  if (known !== undefined) return known.id;
  const day = (ms: number) => new Date(ms).toISOString().slice(0, 10);
  const to = Date.now() - DAY_MS;
  const request = { from: day(to - (DAYS - 1) * DAY_MS), to: day(to) };
  return replay.parse(await (await ask('/api/analysis/replay', 'POST', request)).json()).id;
}

/** Charts further down are drawn when they come near. */
async function settle(page: Page): Promise<void> {
  await page.locator('[data-chart="ready"] svg').first().waitFor({ timeout: 60_000 });
  await page.waitForTimeout(2_500);
}
