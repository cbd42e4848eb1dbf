import { CommandError } from '#server/cli/command-error.ts';
import { forkTypescript } from '#server/cli/fork-typescript.ts';
import type { ProgressReporter } from '#server/cli/progress.ts';
import type { SeedOrder, SeedReport } from './seed-process.ts';

/** Sends the demo fleet through the public interface, from a process of its own, like any gateway. */
export async function seedFleet(
  order: SeedOrder,
  progress: ProgressReporter,
  signal: AbortSignal,
): Promise<number> {
  let stored = 0;
  try {
    await forkTypescript(new URL('./seed-process.ts', import.meta.url), [JSON.stringify(order)], {
      signal,
      onMessage(message) {
        const report = message as SeedReport;
        stored = report.stored;
        progress.update(report.done, `${stored.toLocaleString('en')} readings stored`);
      },
    });
    return stored;
  } catch (cause) {
    throw new CommandError(
      `Sending the demo fleet broke off: ${(cause as Error).message}. What was stored stays; the same command goes on from there.`,
    );
  }
}
