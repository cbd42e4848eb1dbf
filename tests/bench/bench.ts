import { chmod, mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { measureGrowth } from './growth/measure-growth.ts';
import { type Figure, toLine } from './report.ts';
import { type Group, groups, runGroups } from './run-groups.ts';

/**
 * `npm run bench`: how fast the program is, one JSON line a figure, each where it can be a ratio to a reference that is measured in
 * the same run. Some twenty minutes; the machine should have nothing else to do. `-- --only answers,screen` takes some groups,
 * `--scale 0.01` a hundredth of the stated sizes, `--keep` leaves the folders behind. `-- --growth` measures what new data and answers cost at
 * one, three and ten times the size instead: a table, and the plot `docs/growth.svg`.
 */
const { values } = parseArgs({
  options: {
    only: { type: 'string' },
    scale: { type: 'string', default: '1' },
    growth: { type: 'boolean', default: false },
    keep: { type: 'boolean', default: false },
  },
});

const scale = Number(values.scale);
if (!(scale > 0 && scale <= 1))
  throw new Error(`--scale must be a share above 0 and up to 1, not ${values.scale}`);
const chosen = new Set(values.only === undefined ? groups : values.only.split(',').map(toGroup));
const folder = await mkdtemp(join(tmpdir(), 'slipdrift-bench-'));
// Where PostgreSQL has an account of its own, it must be able to enter.
await chmod(folder, 0o711);
const tell = (figure: Figure) => console.log(toLine(figure));
try {
  if (values.growth) await measureGrowth(folder, scale);
  else await runGroups(chosen, folder, scale, tell);
} finally {
  if (values.keep) console.error(`kept: ${folder}`);
  else {
    for (const name of ['deliveries', 'deliveries-assessed', 'peak', 'storage', 'fleet'])
      removeStorage(join(folder, name));
    await rm(folder, { recursive: true, force: true });
  }
}

function toGroup(name: string): Group {
  const found = groups.find((one) => one === name.trim());
  if (found === undefined) throw new Error(`--only takes ${groups.join(', ')}, not ${name}`);
  return found;
}
