import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { compressFiles } from './compress-files.ts';
import { builtScreens, checkout, digestFile, hashSources } from './hash-sources.ts';

// Whatever the caller's own is: another would make a development build, of twice the size.
process.env.NODE_ENV = 'production';
// Hashed first: a file that changes while the build runs makes the result count as stale.
const digest = await hashSources();
await build({ configFile: join(checkout, 'web/vite.config.ts'), logLevel: process.send ? 'warn' : 'info' });
await compressFiles(builtScreens);
await writeFile(digestFile, digest);
