import { mkdtemp, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { removeStorage } from '#db/embedded/remove-storage.ts';
import { measureDeliveries } from './deliveries/measure-deliveries.ts';
import { type Figure, toLine } from './report.ts';

const { values } = parseArgs({
  options: { only: { type: 'string' }, scale: { type: 'string', default: '1' }, keep: { type: 'boolean' } },
});
const scale = Number(values.scale);
const folder = await mkdtemp(join(tmpdir(), 'slipdrift-bench-'));
const tell = (figure: Figure) => console.log(toLine(figure));
try {
  await measureDeliveries(folder, scale, tell);
} finally {
  await rm(folder, { recursive: true, force: true });
}
void removeStorage;
