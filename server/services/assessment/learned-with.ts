import type { platforms } from '#db/schema/fleet.ts';
import type { PlatformContext } from '#server/engine/platform/platform-context.ts';
import { toEngineSettings } from '#server/services/stretches/engine-settings.ts';

/** What is learned of a platform, with the settings that it was learned with. */
export type StoredContext = PlatformContext & { learnedWith?: LearnedWith };

export type LearnedWith = ReturnType<typeof learnedWith>;

/** Settings of a platform without which what was learned of it no longer holds. */
export function learnedWith(platform: typeof platforms.$inferSelect | null) {
  const { limitRpm, bandEdgesPct, reference, gate, referenceTorqueNm } = toEngineSettings(platform);
  return { limitRpm, bandEdgesPct, reference, gate, referenceTorqueNm };
}
