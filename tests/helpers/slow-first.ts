import { BaseSequencer, type TestSpecification } from 'vitest/node';

/**
 * The files that took longest on two processors, those that share a process first and then the others, the longest of each
 * first. A fresh clone has no times of its own to go by.
 */
export const slowFiles = [
  'tests/browser/demo-journeys.test.ts',
  'tests/browser/fleet-settings.test.ts',
  'tests/browser/bay-plan.test.ts',
  'tests/browser/settings.test.ts',
  'tests/browser/sign-in.test.ts',
  'tests/recovery/late-arrivals.test.ts',
  'tests/browser/list-planning.test.ts',
  'tests/browser/journey.test.ts',
  'tests/browser/packet.test.ts',
  'tests/recovery/operator.test.ts',
  'tests/browser/bay-plan-meanwhile.test.ts',
  'tests/faults/own-server.test.ts',
  'tests/faults/backup-running.test.ts',
  'tests/faults/killed-postgres.test.ts',
  'tests/faults/backup.test.ts',
  'tests/faults/stop-under-load.test.ts',
  'tests/faults/soak.test.ts',
  'tests/faults/killed-program.test.ts',
  'tests/evaluate/small-fleet.test.ts',
  'tests/faults/two-programs.test.ts',
];

/** Begins with what takes longest, so that no worker is left alone with it at the end. */
export default class SlowFirst extends BaseSequencer {
  override async sort(files: TestSpecification[]): Promise<TestSpecification[]> {
    const sorted = await super.sort(files);
    const rankOf = ({ moduleId }: TestSpecification) => {
      const rank = slowFiles.findIndex((file) => moduleId.endsWith(`/${file}`));
      return rank === -1 ? slowFiles.length : rank;
    };
    return sorted.sort((a, b) => rankOf(a) - rankOf(b));
  }
}
