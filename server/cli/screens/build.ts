import { writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { build } from 'vite';
import { compressFiles } from './compress-files.ts';
import { builtScreens, checkout, digestFile, hashSources } from './hash-sources.ts';

// Hashed first: a file that changes while the build runs makes the result count as stale.
const digest = await hashSources();
await build({ configFile: join(checkout, 'web/vite.config.ts'), logLevel: process.send ? 'warn' : 'info' });
await compressFiles(builtScreens);
await writeFile(digestFile, digest);
