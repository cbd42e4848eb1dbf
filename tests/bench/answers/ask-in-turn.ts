import { ranking } from '#server/contract/ranking.ts';
import type { Figure } from '#tests/bench/report.ts';
import { quantile } from '#tests/bench/timing.ts';

const PAGE = 200;
const ROUNDS = 30;

/** Answer times of the list of many vehicles, one request after the other. */
export async function askInTurn(url: string, headers: Record<string, string>): Promise<Figure[]> {
  const get = async (path: string) => {
    const started = performance.now();
    const answer = await fetch(url + path, { headers });
    const text = await answer.text();
    if (answer.status !== 200) throw new Error(`${path} answered ${answer.status}: ${text.slice(0, 300)}`);
    return { ms: performance.now() - started, text };
  };
  const { total, rows } = ranking.parse(JSON.parse((await get('/api/ranking?limit=3')).text));
  const [first, , third] = rows.map((row) => encodeURIComponent(row.vehicle));
  const pages = (query: string) =>
    Array.from(
      { length: Math.ceil(total / PAGE) },
      (_, i) => `/api/ranking?limit=${PAGE}&offset=${i * PAGE}${query}`,
    );
  const often = (path: string) => Array.from({ length: ROUNDS }, () => path);
  const asked: Record<string, string[]> = {
    'each page of 200, by rank': pages(''),
    'each page of 200, by slip': pages('&sort=slip'),
    'each page of 200, by unit number': pages('&sort=vehicle'),
    'each page of 200, other horizon': pages('&horizon_km=8000'),
    'first page, on hold or to book without a booking': often(
      `/api/ranking?limit=${PAGE}&grade=hold,book&booking=none`,
    ),
    'first page, got worse': often(`/api/ranking?limit=${PAGE}&changed=worse`),
    'first page, part of a unit number': often(`/api/ranking?limit=${PAGE}&q=77`),
    'outlook above the list': often('/api/ranking/outlook'),
    'outlook, got worse': often('/api/ranking/outlook?changed=worse'),
    'unit numbers of the first 1,000': often('/api/ranking/units'),
    'holds without a day': often('/api/ranking/uncovered-holds'),
    'why above the next': often(`/api/ranking/explain?vehicle=${first}`),
    'why above another, other horizon': often(
      `/api/ranking/explain?vehicle=${first}&against=${third}&horizon_km=8000`,
    ),
    'the whole list as CSV': Array.from({ length: 3 }, () => '/api/ranking.csv'),
  };
  const figures: Figure[] = [];
  for (const [figure, paths] of Object.entries(asked)) {
    await get(paths[0] ?? '');
    const times: number[] = [];
    for (const path of paths) times.push((await get(path)).ms);
    for (const [name, share] of [
      ['p50', 0.5],
      ['p99', 0.99],
    ] as const)
      figures.push({
        figure: `one at a time: ${figure}, ${name}`,
        value: quantile(times, share),
        unit: 'ms',
      });
  }
  return figures;
}
