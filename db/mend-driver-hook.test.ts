import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { mendDriver } from './mend-driver-hook.mjs';

it('finds the faults in the driver that is installed', () => {
  const folder = dirname(dirname(createRequire(import.meta.url).resolve('postgres')));
  const source = readFileSync(join(folder, 'src/connection.js'), 'utf8');
  const mended = mendDriver(source);
  expect(mended).toContain('if (socket === null) {');
  expect(mended).toContain('fetchArrayTypes().catch(error)');
  expect(mended).toContain('final && (final(err), final = null)');
  expect(mended.split('chunk = nextWriteTimer = null')).toHaveLength(
    source.split('chunk = nextWriteTimer = null').length + 1,
  );
});
