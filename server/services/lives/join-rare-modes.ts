import type { FleetLife } from './observe-lives.ts';

export const OTHER_MODES = 'other modes';

/**
 * Lives with the rarer of many modes under one name: modes are written by hand, and each costs a curve and a fit. At most
 * `most` names are left, of those that failed most often.
 */
export function joinRareModes(lives: readonly FleetLife[], most: number): readonly FleetLife[] {
  const counts = new Map<string, number>();
  for (const { event, mode } of lives)
    if (event && mode !== undefined) counts.set(mode, (counts.get(mode) ?? 0) + 1);
  // One name may be needed for failures without a mode, one for the rest.
  if (counts.size < most) return lives;
  const kept = new Set(
    [...counts]
      .sort((a, b) => b[1] - a[1] || a[0].localeCompare(b[0], 'en'))
      .slice(0, most - 2)
      .map(([mode]) => mode),
  );
  return lives.map((life) =>
    life.mode === undefined || kept.has(life.mode) ? life : { ...life, mode: OTHER_MODES },
  );
}
