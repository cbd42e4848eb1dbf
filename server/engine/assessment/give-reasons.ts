import type { FleetEvent } from '#server/engine/platform/find-fleet-events.ts';
import type { PlatformSettings } from '#server/engine/platform/platform-context.ts';
import { weekStartMs } from '#server/engine/platform/week-start-ms.ts';
import type { Passage } from '#server/engine/wear/predict-passage.ts';
import type { BandRise, Pattern, Reason } from './assessment-model.ts';
import type { SeriesPoint } from './build-series.ts';
import type { CaseSummary } from './summarise-cases.ts';

export interface ReasonEvidence {
  summary: CaseSummary;
  settings: PlatformSettings;
  points: readonly SeriesPoint[];
  passage: Passage | null;
  pattern: Pattern;
  bandRises: readonly BandRise[];
  hotRpmPerC: { own: number; usual: number };
  usualRpm: number;
  codes: readonly { code: string; n: number; lastMs: number }[];
  fall: { fromRpm: number; toRpm: number; atKm: number } | null;
  events: readonly FleetEvent[];
  arrivedSlipping: boolean;
  /** how fast slip climbs now, rpm per km */
  nowRpmPerKm: number;
  risen: boolean;
}

/**
 * Reasons behind a grade, the strongest first, each with its number.
 *
 * @param evidence figures of one vehicle; units in the names
 * @returns reasons as numbers; words are put to them where the reader's units are known
 * Source: own selection. Edges: no points give none; steepness is said of a drift alone; of a jump, when the limit comes if others follow.
 * Errors: none.
 * @example giveReasons({ ...evidence, points: [] }) // []
 */
export function giveReasons(evidence: ReasonEvidence): Reason[] {
  const { summary, settings, points, passage } = evidence;
  const first = points[0];
  const last = points.at(-1);
  if (first === undefined || last === undefined) return [];
  const reasons: Reason[] = [];
  const level = summary.level.mean;
  if (level >= settings.limitRpm)
    reasons.push({ kind: 'past_limit', slipRpm: level, limitRpm: settings.limitRpm });
  for (const code of evidence.codes) reasons.push({ kind: 'code', ...code });
  const drifts = evidence.pattern !== 'step_then_level' && summary.drifting >= summary.stepping;
  if (evidence.risen) {
    if (evidence.arrivedSlipping)
      reasons.push({ kind: 'high_on_arrival', slipRpm: level, usualRpm: evidence.usualRpm });
    else if (evidence.pattern === 'step_then_level')
      reasons.push({ kind: 'jumped', byRpm: summary.jumpRpm, atKm: summary.onset?.estimate ?? last.km });
    else
      reasons.push({
        kind: 'risen',
        fromRpm: summary.baseline.estimate,
        toRpm: level,
        overKm: last.km - (summary.onset?.estimate ?? first.km),
        sinceKm: summary.onset?.estimate ?? first.km,
      });
    if (passage !== null && level < settings.limitRpm)
      reasons.push({
        kind: drifts ? 'reaches_limit' : 'jumps_reach_limit',
        lowKm: passage.p10,
        highKm: passage.p90,
        limitRpm: settings.limitRpm,
      });
    const loudest = loudestBand(evidence.bandRises);
    const from = settings.bandEdgesPct[loudest?.band ?? -1];
    const to = settings.bandEdgesPct[(loudest?.band ?? -1) + 1];
    if (loudest !== null && from !== undefined && to !== undefined)
      reasons.push({ kind: 'band_speaks', fromPct: from, toPct: to, riseRpm: loudest.riseRpm });
    if (evidence.pattern === 'drift_hot')
      reasons.push({
        kind: 'hotter_worse',
        rpmPerC: evidence.hotRpmPerC.own,
        usualRpmPerC: evidence.hotRpmPerC.usual,
      });
    if (drifts && summary.accelerating > 0.8 && summary.driftRpmPerKm !== null)
      reasons.push({
        kind: 'accelerating',
        nowRpmPerKm: evidence.nowRpmPerKm,
        usualRpmPerKm: summary.driftRpmPerKm.estimate,
      });
  } else if (last.km > first.km)
    reasons.push({ kind: 'no_drift', slipRpm: level, overKm: last.km - first.km });
  if (evidence.fall !== null) {
    const { fromRpm, toRpm, atKm } = evidence.fall;
    reasons.push({ kind: 'fell_back', fromRpm, toRpm, atKm });
  }
  for (const event of evidence.events) {
    const at = weekStartMs(event.week);
    if (at >= first.atMs && at <= last.atMs)
      reasons.push({ kind: 'fleet_moved', rpm: event.sizeRpm, vehicles: event.vehicles });
  }
  return reasons;
}

/** The band whose rise is largest against its error. */
function loudestBand(rises: readonly BandRise[]): BandRise | null {
  const [loudest] = rises
    .filter((rise) => rise.riseRpm > 2 * rise.seRpm)
    .sort((a, b) => b.riseRpm / b.seRpm - a.riseRpm / a.seRpm);
  return loudest ?? null;
}
