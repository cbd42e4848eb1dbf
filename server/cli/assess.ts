import type { Command } from 'commander';
import { createErrorLog } from '#server/create-log.ts';
import { openStorage } from '#server/open-storage.ts';
import { programActor } from '#server/services/actor.ts';
import { createAssessmentWorker } from '#server/services/assessment/create-worker.ts';
import { readOwnSettings } from './with-storage.ts';

export function addAssess(program: Command): void {
  program
    .command('assess')
    .description('bring every assessment up to date, without a server')
    .addHelpText('after', '\nExample:\n  DATABASE_URL=postgres://… slipdrift assess')
    .action(assess);
}

async function assess(): Promise<void> {
  const settings = readOwnSettings();
  const log = createErrorLog('warn');
  const startedMs = performance.now();
  const storage = await openStorage(settings, log);
  try {
    const context = { db: storage.db, now: () => new Date(), log, actor: programActor('command line') };
    const worker = createAssessmentWorker(context);
    try {
      const assessed = await worker.assessNow();
      const seconds = ((performance.now() - startedMs) / 1000).toFixed(1);
      console.log(`Assessed ${assessed} vehicles in ${seconds} s.`);
    } finally {
      await worker.stop();
    }
  } finally {
    await storage.close();
  }
}
