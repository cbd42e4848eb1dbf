import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { dirname, join } from 'node:path';
import { expect, it } from 'vitest';
import { CORRECTIONS } from './mend-driver-hook.mjs';

// What the corrections do is tried on a real server in tests/faults/lost-connections.test.ts.
it('finds each fault, once, in the driver that is installed', () => {
  const folder = dirname(dirname(createRequire(import.meta.url).resolve('postgres')));
  const source = ['connection', 'index']
    .map((name) => readFileSync(join(folder, `src/${name}.js`), 'utf8'))
    .join('');
  for (const [found] of CORRECTIONS) expect(source.split(found), found).toHaveLength(2);
});
