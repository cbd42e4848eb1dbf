import { spawn } from 'node:child_process';
import { once } from 'node:events';
import { readFileSync, rmSync, statSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { openDatabase } from '#db/client.ts';
import { startEmbedded } from '#db/embedded/start-embedded.ts';
import { migrateDatabase } from '#db/migrate.ts';
import { ensureReadingMonths } from '#db/partitions.ts';
import { makeTemporaryFolder } from '#tests/helpers/temporary-folder.ts';

const program = fileURLToPath(new URL('../../server/cli/slipdrift.mjs', import.meta.url));
const READINGS = [200_000, 2_000_000];
const DATA = 'data';

/** Runs a command and tells how long it took and the most memory that it held at a time (VmHWM, Linux). */
async function measure(args: string[], settings: Record<string, string>) {
  const startedMs = performance.now();
  const { PATH = '' } = process.env;
  const child = spawn(process.execPath, [program, ...args], {
    env: { PATH, ...settings },
    stdio: ['ignore', 'ignore', 'inherit'],
  });
  let peakMib = 0;
  const look = setInterval(() => {
    try {
      const status = readFileSync(`/proc/${child.pid}/status`, 'utf8');
      peakMib = Math.max(peakMib, Number(/VmHWM:\s+(\d+)/.exec(status)?.[1] ?? 0) / 1024);
    } catch {
      // It has just ended.
    }
  }, 50);
  const [code] = await once(child, 'close');
  clearInterval(look);
  if (code !== 0) throw new Error(`slipdrift ${args.join(' ')} ended with ${code}`);
  return `${((performance.now() - startedMs) / 1000).toFixed(1)} s, ${peakMib.toFixed(0)} MiB`;
}

/** Readings of 240 vehicles over eleven months, with values that do not repeat. */
async function fill(url: string, readings: number): Promise<void> {
  await migrateDatabase(url);
  const { db, client, close } = openDatabase(url);
  await ensureReadingMonths(
    db,
    Array.from({ length: 12 }, (_, i) => `2025-${String(i + 1).padStart(2, '0')}`),
  );
  await client.unsafe(`
    insert into vehicles (unit) select 'B-' || i from generate_series(1, 240) i;
    insert into readings (at, vehicle, odometer_km, slip_rpm, duty_pct, fluid_c, load_pct, torque_pct, speed_kmh, seconds, gear)
    select timestamptz '2025-01-01 00:00Z' + (i / 240) * interval '300 days' / (${readings} / 240), 1 + i % 240,
      50000 + i / 240 * 3.7, 10 + random() * 9, 80 + random() * 15, 70 + random() * 30, random() * 100, random() * 100,
      random() * 90, 30, 1 + i % 6
    from generate_series(0, ${readings - 1}) i`);
  await close();
}

for (const readings of READINGS) {
  const folder = makeTemporaryFolder();
  try {
    const server = await startEmbedded({ folder: join(folder, DATA) });
    await fill(server.url, readings);
    const file = join(folder, 'backup.tar.gz');
    const settings = { DATABASE_URL: server.url };
    console.log(`${readings.toLocaleString('en')} readings`);
    console.log(`  backup: ${await measure(['backup', file], settings)}`);
    console.log(`  file: ${(statSync(file).size / 1_048_576).toFixed(1)} MiB`);
    console.log(`  restore --check: ${await measure(['restore', '--check', file], settings)}`);
    console.log(`  restore --replace: ${await measure(['restore', '--replace', file], settings)}`);
    await server.stop();
  } finally {
    rmSync(folder, { recursive: true });
  }
}
