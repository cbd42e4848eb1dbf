import { once } from 'node:events';
import { dayOf } from '#demo-fleet/calendar.ts';
import { planGateways } from '#demo-fleet/gateways.ts';
import { choosePastJobs, type PastJob, withoutReported } from '#demo-fleet/past-jobs.ts';
import { getScenario, type ScenarioName } from '#demo-fleet/scenarios.ts';
import { type ConfirmedDelivery, sendFleet } from '#demo-fleet/send.ts';

/** What the parent says on the command line, as JSON. */
export interface SeedOrder {
  baseUrl: string;
  apiKey?: string;
  /** of each gateway, by its name */
  gatewayKeys: Record<string, string>;
  scenario: ScenarioName;
  end: string;
  truthPath: string;
  /** asks its parent to do something so long before the end, as for each visit to the shop before it, and waits */
  interludeDaysBeforeEnd: number;
}

export interface SeedReport {
  phase: 'building' | 'set-up' | 'readings' | 'done' | 'interlude';
  /** 0 to 1 */
  done: number;
  stored: number;
  /** once all is sent: when each delivery would have arrived */
  receipts?: ConfirmedDelivery[];
  /** of an interlude: the visit to the shop that it is for; null where it is for the week before the end */
  job: PastJob | null;
}

let last = { done: 0, stored: 0 };

async function askParent(job: PastJob | null): Promise<void> {
  const answered = once(process, 'message');
  process.send?.({ phase: 'interlude', ...last, job } satisfies SeedReport);
  await answered;
}

const order = JSON.parse(process.argv[2] ?? '{}') as SeedOrder;
try {
  const { receipts } = await sendFleet({
    baseUrl: order.baseUrl,
    apiKey: order.apiKey,
    scenario: getScenario(order.scenario, { end: new Date(order.end) }),
    truthPath: order.truthPath,
    arrange(simulated) {
      const jobs = choosePastJobs(simulated);
      const weekBefore = dayOf(Date.parse(order.end)) - order.interludeDaysBeforeEnd;
      return {
        setUp: withoutReported(simulated.setUp, jobs),
        interludes: [
          ...jobs.map((job) => ({ day: job.day, work: () => askParent(job) })),
          { day: weekBefore, work: () => askParent(null) },
        ],
      };
    },
    gateways: (truth) => ({ ...planGateways(truth), keyOf: (name) => order.gatewayKeys[name] }),
    onProgress: ({ phase, done, confirmed }) => {
      last = { done, stored: confirmed.stored };
      const report: SeedReport = { phase, ...last, job: null };
      process.send?.(report);
    },
  });
  process.send?.({ phase: 'done', ...last, job: null, receipts } satisfies SeedReport);
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
process.disconnect?.();
