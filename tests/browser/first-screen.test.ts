import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { gzipSync } from 'node:zlib';
import { beforeAll, expect, it } from 'vitest';
import { buildScreens } from './build-screens.ts';

interface Part {
  file: string;
  imports?: string[];
  dynamicImports?: string[];
}
let built: string;
let manifest: Record<string, Part>;

beforeAll(async () => {
  built = await buildScreens();
  manifest = JSON.parse(await readFile(join(built, '.vite/manifest.json'), 'utf8'));
});

/** A part and all that it imports at once. */
function gather(keys: readonly string[], found = new Set<string>()): Set<string> {
  for (const key of keys) {
    if (found.has(key)) continue;
    found.add(key);
    gather(manifest[key]?.imports ?? [], found);
  }
  return found;
}

async function compressedKb(keys: ReadonlySet<string>): Promise<number> {
  const files = [...keys].flatMap((key) => manifest[key]?.file ?? []);
  const sizes = await Promise.all(
    files.map(async (file) => gzipSync(await readFile(join(built, file))).length),
  );
  return sizes.reduce((sum, size) => sum + size, 0) / 1000;
}

const entries = ['index.html', 'screens/inspection-list/inspection-list-screen.tsx'];

it('shows the list with less than 180 kB of compressed script, and its chart with no more than it needs', async () => {
  const list = gather(entries);
  const drawing = gather(
    [...list].flatMap((key) =>
      (manifest[key]?.dynamicImports ?? []).filter((one) => one.includes('echarts')),
    ),
  );
  const listKb = await compressedKb(list);
  const withChartKb = await compressedKb(new Set([...list, ...drawing]));
  process.stdout.write(
    `first screen: ${listKb.toFixed(1)} kB gzip, with its chart ${withChartKb.toFixed(1)} kB\n`,
  );
  expect([...list].filter((key) => key.includes('echarts'))).toEqual([]);
  expect(drawing.size).toBeGreaterThan(0);
  expect(listKb).toBeLessThan(180);
  expect(withChartKb).toBeLessThan(365);
});
