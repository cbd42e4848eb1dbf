import { mkdir, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { compressFiles } from './compress-files.ts';
import { buildsFolder, builtFrom, builtScreens, checkout, hashSources } from './hash-sources.ts';
import { placeScreens } from './place-screens.ts';

// Whatever the caller's own is: another would make a development build, of twice the size.
process.env.NODE_ENV = 'production';
// Hashed first: a file that changes while the build runs makes the result count as stale.
const digest = await hashSources();
// Beside what is served, and put in its place when it is whole: another program may serve or build just then.
const outDir = join(buildsFolder, `${process.pid}-${Date.now()}`);
await mkdir(buildsFolder, { recursive: true });
try {
  await build({
    configFile: join(checkout, 'web/vite.config.ts'),
    logLevel: process.send ? 'warn' : 'info',
    build: { outDir },
  });
  await compressFiles(outDir);
  await writeFile(join(outDir, builtFrom), digest);
  await placeScreens(outDir, builtScreens);
} finally {
  await rm(outDir, { recursive: true, force: true });
}
