import { beginRun } from '#server/services/assessment/bring-up-to-date.ts';
import type { RunAssessment } from '#server/services/assessment/create-worker.ts';
import type { Context } from '#server/services/context.ts';
import type { ThreadSettings } from './messages.ts';
import { startAssessmentThread } from './start-assessment-thread.ts';

export interface AssessmentThreads {
  run: RunAssessment;
  /** Lets the vehicles in hand end, for at most `seconds`; what was begun stays noted, and others do it. */
  stop(seconds: number): Promise<void>;
}

/** So many threads for the assessment, which share each run as the workers of other processes do. */
export function startAssessmentThreads(
  { db }: Pick<Context, 'db'>,
  settings: ThreadSettings,
  count: number,
): AssessmentThreads {
  const threads = Array.from({ length: count }, () => startAssessmentThread(settings));
  return {
    async run({ learn, signal }) {
      const until = await beginRun({ db }, learn);
      const parts = await Promise.allSettled(threads.map((thread) => thread.run(until, signal)));
      const failed = parts.find((part) => part.status === 'rejected');
      if (failed !== undefined) throw failed.reason;
      return parts.reduce((sum, part) => sum + (part.status === 'fulfilled' ? part.value : 0), 0);
    },
    async stop(seconds) {
      await Promise.all(threads.map((thread) => thread.stop(seconds)));
    },
  };
}
