import { once } from 'node:events';
import { getScenario, type ScenarioName } from '#demo-fleet/scenarios.ts';
import { sendFleet } from '#demo-fleet/send.ts';

/** What the parent says on the command line, as JSON. */
export interface SeedOrder {
  baseUrl: string;
  apiKey?: string;
  scenario: ScenarioName;
  end: string;
  truthPath: string;
  /** asks its parent to do something in the midst of the sending, and waits for the answer */
  interludeDaysBeforeEnd: number | null;
}

export interface SeedReport {
  phase: 'building' | 'set-up' | 'readings' | 'done' | 'interlude';
  /** 0 to 1 */
  done: number;
  stored: number;
}

let last = { done: 0, stored: 0 };

async function askParent(): Promise<void> {
  const answered = once(process, 'message');
  process.send?.({ phase: 'interlude', ...last } satisfies SeedReport);
  await answered;
}

const order = JSON.parse(process.argv[2] ?? '{}') as SeedOrder;
try {
  await sendFleet({
    baseUrl: order.baseUrl,
    apiKey: order.apiKey,
    scenario: getScenario(order.scenario, { end: new Date(order.end) }),
    truthPath: order.truthPath,
    ...(order.interludeDaysBeforeEnd === null
      ? {}
      : { interlude: { daysBeforeEnd: order.interludeDaysBeforeEnd, work: askParent } }),
    onProgress: ({ phase, done, confirmed }) => {
      last = { done, stored: confirmed.stored };
      const report: SeedReport = { phase, ...last };
      process.send?.(report);
    },
  });
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
process.disconnect?.();
