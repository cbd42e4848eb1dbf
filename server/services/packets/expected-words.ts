import type { TestStep } from '#server/contract/words.ts';
import type { JudgedPlatform } from './judge-finding.ts';

/** The figure to expect in a step on this platform, with its arithmetic; null where there is none. */
export function expectedWords(_step: TestStep, _platform: JudgedPlatform): string | null {
  return null;
}
