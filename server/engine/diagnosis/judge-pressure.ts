import type { Asked, Judged, LookAt, PressureResult, Question } from './diagnosis-model.ts';

export interface PressureInput {
  place: 'line' | 'cooler_line' | 'clutch_port';
  /** of all three figures */
  unit: 'bar' | 'kpa' | 'psi';
  /** solenoid commanded off */
  off: number;
  /** solenoid commanded on */
  on: number;
  /** the smallest difference that the gauge shows */
  smallestStep: number;
  asMeasured: boolean;
}

export interface PressureFigures {
  change: number;
  /** from here on it changes */
  changesFrom: number;
  /** below this it does not */
  staysBelow: number;
}

const STEPS = 2;
const SHARE = 0.05;
/** More bar than a transmission's pump makes; common practice, no source. */
const MUCH_BAR = 60;
/** From this figure on kPa is likelier than psi; our own choice. */
const KPA_FROM = 400;

/**
 * Judgement of pressure with the solenoid commanded off and on.
 *
 * A change counts, not a figure: it changes where |on - off| >= max(2 smallest steps, 5 % of the larger), does not where
 * it is under half of that, and cannot be told between.
 *
 * @param input place, and figures in one unit: bar, kPa or psi
 * @returns the judgement with its change and bounds in that unit; or questions unless the figures stand: both 0, one
 * below 0, bar that look like psi or kPa, a step larger than the figures
 * Source: common practice, no source; two steps and 5 % are own choice. Edges: a change of exactly the bound changes.
 * Errors: none.
 * @example judgePressure({ place: 'clutch_port', unit: 'bar', off: 1, on: 6, smallestStep: 0.2, asMeasured: false }).result // 'pressure_changes'
 */
export function judgePressure(input: PressureInput): Asked | Judged<PressureResult, PressureFigures> {
  if (!input.asMeasured) {
    const asks = questions(input);
    if (asks.length > 0) return { asks };
  }
  const larger = Math.max(Math.abs(input.on), Math.abs(input.off));
  const change = Math.abs(input.on - input.off);
  const changesFrom = Math.max(STEPS * input.smallestStep, SHARE * larger);
  const staysBelow = changesFrom / 2;
  const figures = { change, changesFrom, staysBelow };
  const exact = 1e-9 * Math.max(1, larger);
  if (change >= changesFrom - exact)
    return { result: 'pressure_changes', verdict: 'passed', lookNext: [], figures };
  const place: LookAt[] = input.place === 'line' ? ['better_place'] : [];
  return change < staysBelow - exact
    ? { result: 'pressure_stays', verdict: 'failed', lookNext: [...place, 'valve'], figures }
    : { result: 'pressure_unclear', verdict: 'unclear', lookNext: [...place, 'finer_gauge'], figures };
}

function questions({ unit, off, on, smallestStep }: PressureInput): Question[] {
  if (off === 0 && on === 0) return [{ kind: 'both_zero', field: 'on', suggestion: null }];
  if (off < 0 || on < 0)
    return [
      {
        kind: 'negative_pressure',
        field: on < 0 ? 'on' : 'off',
        suggestion: { off: Math.abs(off), on: Math.abs(on) },
      },
    ];
  const larger = Math.max(off, on);
  if (unit === 'bar' && larger > MUCH_BAR)
    return [
      { kind: 'pressure_unit', field: 'unit', suggestion: { unit: larger >= KPA_FROM ? 'kpa' : 'psi' } },
    ];
  if (smallestStep > larger) return [{ kind: 'step_over_reading', field: 'smallestStep', suggestion: null }];
  return [];
}
