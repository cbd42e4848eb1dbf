import { getScenario, type ScenarioName } from '#demo-fleet/scenarios.ts';
import { sendFleet } from '#demo-fleet/send.ts';

/** What the parent says on the command line, as JSON. */
export interface SeedOrder {
  baseUrl: string;
  apiKey?: string;
  scenario: ScenarioName;
  end: string;
  truthPath: string;
}

export interface SeedReport {
  phase: 'building' | 'set-up' | 'readings' | 'done';
  /** 0 to 1 */
  done: number;
  stored: number;
}

const order = JSON.parse(process.argv[2] ?? '{}') as SeedOrder;
try {
  await sendFleet({
    baseUrl: order.baseUrl,
    apiKey: order.apiKey,
    scenario: getScenario(order.scenario, { end: new Date(order.end) }),
    truthPath: order.truthPath,
    onProgress: ({ phase, done, confirmed }) => {
      const report: SeedReport = { phase, done, stored: confirmed.stored };
      process.send?.(report);
    },
  });
} catch (error) {
  console.error(error instanceof Error ? error.message : String(error));
  process.exitCode = 1;
}
process.disconnect?.();
