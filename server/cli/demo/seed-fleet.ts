import type { PastJob } from '#demo-fleet/past-jobs.ts';
import type { ConfirmedDelivery } from '#demo-fleet/send.ts';
import { CommandError } from '#server/cli/command-error.ts';
import { forkTypescript } from '#server/cli/fork-typescript.ts';
import type { ProgressReporter } from '#server/cli/progress.ts';
import type { SeedOrder, SeedReport } from './seed-process.ts';

/** Sends the demo fleet through the public interface, from a process of its own, like any gateway; answers its deliveries. */
export async function seedFleet(
  order: SeedOrder,
  progress: ProgressReporter,
  signal: AbortSignal,
  interlude: (job: PastJob | null) => Promise<void>,
): Promise<ConfirmedDelivery[]> {
  let receipts: ConfirmedDelivery[] = [];
  const failed = new AbortController();
  try {
    await forkTypescript(new URL('./seed-process.ts', import.meta.url), [JSON.stringify(order)], {
      signal: AbortSignal.any([signal, failed.signal]),
      onMessage(message, answer) {
        const report = message as SeedReport;
        if (report.phase === 'interlude')
          void interlude(report.job).then(
            () => answer('go on'),
            (error: unknown) => failed.abort(error),
          );
        receipts = report.receipts ?? receipts;
        progress.update(report.done, `${report.stored.toLocaleString('en')} readings stored`);
      },
    });
    return receipts;
  } catch (broken) {
    const cause = failed.signal.aborted ? failed.signal.reason : broken;
    throw new CommandError(
      `Sending the demo fleet broke off: ${(cause as Error).message}. What was stored stays; the same command goes on from there.`,
    );
  }
}
