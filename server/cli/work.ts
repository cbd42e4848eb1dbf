import type { Command } from 'commander';
import { createLog } from '#server/create-log.ts';
import { readSettings } from '#server/settings.ts';
import { startWork } from '#server/start-work.ts';
import { runUntilStopped } from './run-until-stopped.ts';

interface WorkFlags {
  workers?: string;
}

export function addWork(program: Command): void {
  program
    .command('work')
    .description('assess and do what else is due, beside servers that answer')
    .option('-w, --workers <number>', 'threads that assess, else SLIPDRIFT_WORKERS')
    .addHelpText('after', '\nExample:\n  DATABASE_URL=postgres://… slipdrift work --workers 4')
    .action(work);
}

async function work(flags: WorkFlags): Promise<void> {
  const settings = readSettings({
    ...process.env,
    HOST: '127.0.0.1',
    ...(flags.workers === undefined ? {} : { SLIPDRIFT_WORKERS: flags.workers }),
  });
  const log = createLog(settings.logLevel);
  await runUntilStopped(
    () => startWork(settings, log),
    async () => {
      if (process.stderr.isTTY) console.error('Slipdrift works on what is due. Stop it with Ctrl-C.');
    },
  );
}
