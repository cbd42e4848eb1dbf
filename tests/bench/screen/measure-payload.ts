/** Bytes over the wire, compressed, of what the first screen needs before any chart, and of the chart part. */
export async function measurePayload(url: string): Promise<{ figure: string; value: number }[]> {
  const page = await (await fetch(url)).text();
  const named = [...page.matchAll(/(?:src|href)="(\/assets\/[^"]+\.(?:js|css))"/g)].map(
    (match) => match[1] ?? '',
  );
  const sizes = await Promise.all(named.map((path) => size(url + path)));
  const of = (ending: string) => sum(sizes.filter((_, i) => named[i]?.endsWith(ending)));
  return [
    { figure: 'first screen, script, compressed', value: of('.js') },
    { figure: 'first screen, styles, compressed', value: of('.css') },
  ];
}

async function size(url: string): Promise<number> {
  const reply = await fetch(url, { headers: { 'accept-encoding': 'br, gzip' } });
  await reply.arrayBuffer();
  const length = reply.headers.get('content-length');
  if (length === null) throw new Error(`${url} does not tell its length`);
  return Number(length) / 1000;
}

const sum = (values: readonly number[]) => Math.round(values.reduce((a, b) => a + b, 0) * 10) / 10;
