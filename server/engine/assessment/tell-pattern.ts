import type { BandRise, Pattern } from './assessment-model.ts';
import type { CaseSummary } from './summarise-cases.ts';

/** Slip this many times the limit is full slip. */
const FULL_SLIP = 2.5;
/** Probability from which one kind is named rather than another. */
const TOLD = 0.6;
const ACCELERATES = 0.8;
/** Rises of low and high command bands differ when their difference is so many standard errors, and so unlike. */
const UNLIKE_SIGMA = 3;
const UNLIKE_RATIO = 2;
const LEAST_RISE_RPM = 5;
/** Worse when hot: so many rpm per degC more than is usual at this slip. */
const HOT_RPM_PER_C = 0.8;

export interface PatternEvidence {
  summary: CaseSummary;
  limitRpm: number;
  /** true where wear had begun before the first reading */
  arrivedSlipping: boolean;
  fellBack: boolean;
  bandRises: readonly BandRise[];
  hotRpmPerC: { own: number; usual: number };
  hasCode: boolean;
  /** true where there is evidence of a rise at all */
  risen: boolean;
}

/**
 * Pattern of the evidence: what it is consistent with, never a diagnosis.
 *
 * Asked in this order: full slip, fell back, slipping on arrival, a jump that stays, worse when hot, rise at low
 * or at high command only, accelerating, rise at all commands, a code alone, none.
 *
 * @param evidence figures of one vehicle, rpm and probabilities
 * @returns the first pattern that fits
 * Source: common practice, no source. Edges: without evidence of a rise only full slip, a fall and a code are told.
 * Errors: none.
 * @example tellPattern({ ...quiet, hasCode: true }) // 'code_only'
 */
export function tellPattern(evidence: PatternEvidence): Pattern {
  const { summary, limitRpm } = evidence;
  if (summary.level.mean > FULL_SLIP * limitRpm) return 'full_slip';
  if (!evidence.risen) {
    if (evidence.fellBack) return 'fell_back';
    return evidence.hasCode ? 'code_only' : 'none';
  }
  if (evidence.arrivedSlipping) return 'slipping_on_arrival';
  if (summary.stepping > TOLD) return 'step_then_level';
  if (evidence.hotRpmPerC.own - evidence.hotRpmPerC.usual > HOT_RPM_PER_C) return 'drift_hot';
  const byCommand = compareCommands(evidence.bandRises);
  if (byCommand !== null) return byCommand;
  return summary.accelerating > ACCELERATES ? 'accelerating' : 'drift_all_commands';
}

/**
 * Which half of the command bands rises alone. Every band of it rises far more than every other: one band alone, which
 * may rest on a few odd kilometres, tells nothing beside others that disagree.
 */
function compareCommands(rises: readonly BandRise[]): Pattern | null {
  if (rises.length < 2) return null;
  const [low, high] = [
    rises.slice(0, Math.floor(rises.length / 2)),
    rises.slice(Math.ceil(rises.length / 2)),
  ];
  if (risesAlone(low, high)) return 'drift_low_command';
  return risesAlone(high, low) ? 'drift_high_command' : null;
}

function risesAlone(half: readonly BandRise[], other: readonly BandRise[]): boolean {
  return half.every((one) =>
    other.every(
      ({ riseRpm, seRpm }) =>
        one.riseRpm > UNLIKE_RATIO * Math.max(LEAST_RISE_RPM, riseRpm) &&
        one.riseRpm - riseRpm > UNLIKE_SIGMA * Math.hypot(one.seRpm, seRpm),
    ),
  );
}
