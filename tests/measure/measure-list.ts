import { signInToDemo } from '#tests/helpers/sign-in-demo.ts';

const REQUESTS = 400;

/** Answer times of the list and of one vehicle for a planner who is signed in, one request after another and eight at once. */
export async function measureList(url: string): Promise<{ figure: string; value: Record<string, number> }[]> {
  const { headers } = await signInToDemo(url, 'planner');
  const list = await (await fetch(`${url}/api/ranking?limit=1`, { headers })).json();
  const vehicle: string = list.rows[0].vehicle;
  const paths = {
    'list, first 100 rows': '/api/ranking?limit=100',
    'list, other horizon': '/api/ranking?limit=100&horizon_km=8000',
    'outlook above the list': '/api/ranking/outlook',
    vehicle: `/api/vehicles/${vehicle}`,
    'series of a vehicle': `/api/vehicles/${vehicle}/series`,
  };
  const figures = [];
  for (const [name, path] of Object.entries(paths))
    for (const connections of [1, 8]) {
      const times = await askRepeatedly(url + path, headers, connections);
      figures.push({ figure: `${name}, ${connections} at once`, value: summarise(times) });
    }
  return figures;
}

async function askRepeatedly(
  url: string,
  headers: Record<string, string>,
  connections: number,
): Promise<number[]> {
  const times: number[] = [];
  let left = REQUESTS + 20;
  const work = async () => {
    while (left-- > 0) {
      const started = performance.now();
      const reply = await fetch(url, { headers });
      await reply.arrayBuffer();
      if (reply.status !== 200) throw new Error(`${url} answered ${reply.status}`);
      times.push(performance.now() - started);
    }
  };
  await Promise.all(Array.from({ length: connections }, work));
  return times.slice(20);
}

function summarise(times: number[]): Record<string, number> {
  const sorted = [...times].sort((a, b) => a - b);
  const at = (share: number) =>
    Math.round((sorted[Math.ceil(share * sorted.length) - 1] ?? Number.NaN) * 10) / 10;
  return { p50: at(0.5), p99: at(0.99) };
}
