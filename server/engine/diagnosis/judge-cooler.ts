import type { Asked, CoolerResult, Judged } from './diagnosis-model.ts';

/** At idle: about a quart in 20 s. Common practice, from memory, no source. */
export const WANTED_FLOW_L_MIN = 2.8;

/** More than a cooler circuit carries at idle; our own choice. */
const MUCH_FLOW_L_MIN = 30;

export interface CoolerInput {
  litres: number;
  seconds: number;
  asMeasured: boolean;
}

/**
 * Judgement of the cooler's flow.
 *
 * flow = 60 * litres / seconds; it flows where that is at least 2.8 L/min.
 *
 * @param input.litres     caught from the return line, L
 * @param input.seconds    time of catching, engine idling, s
 * @param input.asMeasured no questions: the figures stand
 * @returns the judgement with its flow in L/min; or a question where nothing, or over 30 L/min, was caught
 * Source: about a quart in 20 s at idle, common practice, from memory, no source. Edges: a flow of exactly 2.8 L/min
 * flows. Errors: none.
 * @example judgeCooler({ litres: 1, seconds: 20, asMeasured: false }).figures.flowLMin // 3
 */
export function judgeCooler(
  input: CoolerInput,
): Asked | Judged<CoolerResult, { flowLMin: number; wantedLMin: number }> {
  const flowLMin = (60 * input.litres) / input.seconds;
  if (!input.asMeasured) {
    if (input.litres === 0) return { asks: [{ kind: 'nothing_caught', field: 'litres', suggestion: null }] };
    if (flowLMin > MUCH_FLOW_L_MIN)
      return { asks: [{ kind: 'much_flow', field: 'litres', suggestion: null }] };
  }
  const flows = flowLMin >= WANTED_FLOW_L_MIN - 1e-9;
  return {
    result: flows ? 'cooler_flows' : 'cooler_restricted',
    verdict: flows ? 'passed' : 'failed',
    lookNext: flows ? [] : ['cooler_lines', 'replace_cooler'],
    figures: { flowLMin, wantedLMin: WANTED_FLOW_L_MIN },
  };
}
