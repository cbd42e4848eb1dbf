import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import { type Logger, pino } from 'pino';
import { startSlipdrift } from '#server/main.ts';
import { readSettings } from '#server/settings.ts';
import { runUntilStopped } from './run-until-stopped.ts';
import { ensureScreens } from './screens/ensure-screens.ts';
import { checkout } from './screens/hash-sources.ts';

interface ServeFlags {
  port?: string;
  host?: string;
  data?: string;
}

export function addServe(program: Command): void {
  program
    .command('serve')
    .description('start the server and keep it running')
    .option('-p, --port <number>', 'port, else PORT, else 4280')
    .option('--host <address>', 'address to listen on, else HOST, else 127.0.0.1')
    .option('--data <folder>', 'data folder, else SLIPDRIFT_DATA, else ./data')
    .addHelpText('after', '\nExample:\n  SLIPDRIFT_API_KEY=… slipdrift serve --host 0.0.0.0 --port 80')
    .action(serve);
}

async function serve(flags: ServeFlags): Promise<void> {
  const settings = readSettings({
    ...process.env,
    ...(flags.port === undefined ? {} : { PORT: flags.port }),
    ...(flags.host === undefined ? {} : { HOST: flags.host }),
    ...(flags.data === undefined ? {} : { SLIPDRIFT_DATA: flags.data }),
  });
  const log = pino({ level: settings.logLevel });
  await runUntilStopped(
    () => startSlipdrift(settings, log),
    async (running, signal) => {
      await renewScreens(log, signal);
      if (process.stderr.isTTY) console.error(`Slipdrift is at ${running.url}. Stop it with Ctrl-C.`);
    },
  );
}

/** Readings are taken in meanwhile. An image holds built screens without their sources: those are served as they are. */
async function renewScreens(log: Logger, signal: AbortSignal): Promise<void> {
  if (!existsSync(join(checkout, 'web/main.tsx'))) return;
  try {
    if (await ensureScreens(signal)) log.info('screens built');
  } catch (error) {
    if (!signal.aborted)
      log.warn({ err: error }, 'the screens could not be built: older ones are served, or none');
  }
}
