import { existsSync } from 'node:fs';
import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { ensureScreens } from '#server/cli/screens/ensure-screens.ts';
import { askMany, signIn } from './many/ask-many.ts';
import { account, prepareMany } from './many/prepare-many.ts';
import { scrollMany } from './many/scroll-many.ts';
import { startProgram } from './start-program.ts';

/**
 * `npm run measure:list`: the list of 10,000 vehicles in a real database, over the interface and in a browser. Prints one
 * JSON line a figure. `-- --vehicles 2000` for fewer, `-- --folder x` keeps the fleet there for another time, `-- --only calls` or `browser`
 * takes a part.
 */
const { values } = parseArgs({
  options: {
    vehicles: { type: 'string', default: '10000' },
    folder: { type: 'string' },
    only: { type: 'string' },
  },
});
const folder = values.folder ?? (await mkdtemp(join(tmpdir(), 'slipdrift-many-')));
try {
  if (values.folder === undefined || !existsSync(join(folder, 'postgres')))
    await prepareMany(folder, Number(values.vehicles));
  await ensureScreens();
  const program = await startProgram(['serve'], folder, { PORT: '4485' });
  try {
    const headers = await signIn(program.url, account);
    const tell = ({ figure, value }: { figure: string; value: Record<string, number> }) =>
      console.log(JSON.stringify({ figure, value, unit: 'ms' }));
    if (values.only !== 'browser') for (const one of await askMany(program.url, headers)) tell(one);
    if (values.only !== 'calls') await scrollMany(program.url, headers.cookie, tell);
    console.log(
      JSON.stringify({
        figure: 'peak memory of the server',
        value: Math.round(program.peakMiB()),
        unit: 'MiB',
      }),
    );
  } finally {
    await program.stop();
  }
} finally {
  if (values.folder === undefined) await rm(folder, { recursive: true, force: true });
}
