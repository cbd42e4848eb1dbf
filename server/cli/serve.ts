import { existsSync } from 'node:fs';
import { join } from 'node:path';
import type { Command } from 'commander';
import type { Logger } from 'pino';
import { createLog } from '#server/create-log.ts';
import { type Running, startSlipdrift } from '#server/main.ts';
import { oneTimeUrl } from '#server/services/people/change-people.ts';
import { offerFirstAccount } from '#server/services/people/one-time-address.ts';
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
  const log = createLog(settings.logLevel);
  await runUntilStopped(
    () => startSlipdrift(settings, log),
    async (running, signal) => {
      await offerFirst(running).catch((error: unknown) =>
        log.warn({ err: error }, 'no address for a first account could be made'),
      );
      await renewScreens(log, signal);
      if (process.stderr.isTTY) console.error(`Slipdrift is at ${running.url}. Stop it with Ctrl-C.`);
    },
  );
}

/** Where nobody has an account yet: said to whoever started this, once, and kept out of the log. */
async function offerFirst({ context, people, url }: Running): Promise<void> {
  const offered = await offerFirstAccount(context, people.library);
  if (offered === null) return;
  context.log.info('nobody has an account yet; the address for the first one was written to standard error');
  console.error(
    `Make the first account, an admin's, at\n\n  ${oneTimeUrl(people.publicUrl ?? url, offered.token)}\n\nIt works once, within 24 hours; the next start makes another one.`,
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
