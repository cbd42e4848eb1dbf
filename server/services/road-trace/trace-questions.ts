import type { StepQuestion } from '#server/contract/test-steps.ts';
import type { ReadTrace } from '#server/services/packets/read-trace.ts';

/** Of the rows with the clutch commanded, so many below 0 are 'throughout': a sensor may jitter. */
const NEGATIVE_SHARE = 0.95;
/** Negative slip smaller than this is a sensor's zero. */
const NEGATIVE_RPM = -5;
/** Rows further apart than this are too seldom for a road test: their numbers look like ms. */
const SELDOM_S = 5;
/** Transmission fluid is not driven so hot, degC; common practice, no source. */
const NEVER_SO_HOT_C = 140;

/** What in the trace may be a slip of the pen. The file is never changed by a guess. */
export function askAboutTrace(
  { samples, columns, timeUnitAssumed }: ReadTrace,
  stepMs: number,
): StepQuestion[] {
  const questions: StepQuestion[] = [];
  const ask = (field: string, message: string) =>
    questions.push({ field, message, suggestion: null, suggestion_says: null });
  const { slipRpm, dutyPct, throttlePct, fluidC } = samples;

  if (timeUnitAssumed && stepMs > SELDOM_S * 1000)
    ask(
      columns.time?.header ?? 'time',
      `Rows are ${Math.round(stepMs / 1000)} s apart if times are seconds. Are they milliseconds? If so, name the column time_ms and send the file again.`,
    );
  const duty = measureSpan(dutyPct);
  if (duty.most > 0 && duty.most <= 1 && duty.least >= 0)
    ask(
      columns.duty?.header ?? 'duty',
      `Commanded duty is never above ${round(duty.most, 2)}. Is it a fraction of 1? If so, write it in percent and send the file again.`,
    );
  const throttle = measureSpan(throttlePct ?? []);
  if (throttle.most > 0 && throttle.most <= 1 && throttle.least >= 0)
    ask(
      columns.throttle?.header ?? 'throttle',
      `Throttle is never above ${round(throttle.most, 2)}. Is it a fraction of 1? If so, write it in percent and send the file again.`,
    );
  const lowSlip = shareBelow(slipRpm, 0, dutyPct, duty.most / 2);
  if (lowSlip.share >= NEGATIVE_SHARE && lowSlip.mean < NEGATIVE_RPM)
    ask(
      (columns.slip ?? columns.engine)?.header ?? 'slip',
      `Slip is negative throughout, ${round(lowSlip.mean, 0)} rpm on the mean while the clutch was commanded. Are its signs turned round? Slip is engine speed less turbine speed; if it is the other way, turn the signs and send the file again.`,
    );
  const fluid = measureSpan(fluidC ?? []);
  if (columns.fluid?.unit === null && fluid.most > NEVER_SO_HOT_C)
    ask(
      columns.fluid.header,
      `Fluid would reach ${round(fluid.most, 0)} °C. Is it in °F? If so, name the column fluid_f and send the file again.`,
    );
  return questions;
}

function measureSpan(values: ArrayLike<number>): { least: number; most: number } {
  let [least, most] = [Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? Number.NaN;
    if (value < least) least = value;
    if (value > most) most = value;
  }
  return { least, most };
}

/** Share below a bound and the mean, of the values where another signal is at least so high. */
function shareBelow(
  values: ArrayLike<number>,
  bound: number,
  other: ArrayLike<number>,
  fromOther: number,
): { share: number; mean: number } {
  let [n, below, sum] = [0, 0, 0];
  for (let i = 0; i < values.length; i++) {
    const value = values[i] ?? Number.NaN;
    if ((other[i] ?? 0) < fromOther) continue;
    n += 1;
    sum += value;
    if (value < bound) below += 1;
  }
  return n === 0 ? { share: 0, mean: 0 } : { share: below / n, mean: sum / n };
}

const round = (value: number, digits: number): string => value.toFixed(digits).replace('-', '−');
