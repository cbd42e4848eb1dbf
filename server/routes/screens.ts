import { existsSync } from 'node:fs';
import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import { serveStatic } from '@hono/node-server/serve-static';
import type { Context, MiddlewareHandler } from 'hono';
import { html } from 'hono/html';
import type { RequestEnv } from './deps.ts';
import { newRoutes } from './new-routes.ts';

/** Calls of programs: a wrong path there is an error, not a screen. */
const NOT_SCREENS = /^\/(api|health|metrics|assets)(\/|$)/;

/** Serves the built screens. A path that is no file is an address within them: they read it themselves. */
export function createScreenRoutes(folder: string) {
  const routes = newRoutes();
  let files: MiddlewareHandler<RequestEnv> | undefined;
  routes.get('*', async (c) => {
    if (c.req.path !== '/' && existsSync(folder)) {
      files ??= serveFiles(folder);
      const found = await files(c, async () => {});
      if (found !== undefined) return found;
    }
    return NOT_SCREENS.test(c.req.path) ? c.notFound() : serveIndex(c, folder);
  });
  return routes;
}

function serveFiles(folder: string): MiddlewareHandler<RequestEnv> {
  return serveStatic<RequestEnv>({
    root: folder,
    precompressed: true,
    onFound(path, c) {
      // Names under assets/ carry a digest of their content; all else may change with the next build.
      const lasting = path.includes('/assets/');
      c.header('Cache-Control', lasting ? 'public, max-age=31536000, immutable' : 'no-cache');
    },
  });
}

async function serveIndex(c: Context, folder: string): Promise<Response> {
  c.header('Cache-Control', 'no-cache');
  const index = join(folder, 'index.html');
  if (!existsSync(index)) return c.html(notBuilt, 503);
  return c.html(await readFile(index, 'utf8'));
}

const notBuilt = html`<!doctype html>
<html lang="en"><head><meta charset="utf-8"><title>Slipdrift</title></head>
<body><h1>The screens are not built yet</h1>
<p>They are built at start, in some seconds: reload. If they stay away, the log says why. The interface for programs works without them: <a href="/api">/api</a>.</p>
</body></html>`;
