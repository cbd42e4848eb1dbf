import { isDeclined } from '#server/engine/declined.ts';
import { fitRobustRegression } from '#server/engine/robust/fit-robust-regression.ts';
import { measureAutocorrelation } from '#server/engine/trend/measure-autocorrelation.ts';

export interface MovedWeek {
  /** middle of the week, ms since 1970 */
  ms: number;
  rpm: number;
}

export interface Step {
  ms: number;
  rpm: number;
}

export type MeasuredSeason =
  | { state: 'too_short' }
  | { state: 'not_seen'; errorRpm: number }
  | {
      state: 'measured';
      amplitudeRpm: number;
      errorRpm: number /** from 0, January */;
      highestMonth: number;
    };

const DAY_MS = 86_400_000;
const YEAR_MS = 365.2425 * DAY_MS;
/** Any turn of a year will do to count its phase from. */
const NEW_YEAR_MS = Date.UTC(2000, 0, 1);
/** A season is what comes back: two years at the least. */
const LEAST_MS = 2 * YEAR_MS - 14 * DAY_MS;
/** Weeks on either side of a step tell of it more than of the season. */
const BESIDE_STEP_MS = 14 * DAY_MS;
const LEAST_SIGMA = 3;
/** Below this a season is of no use to anybody, rpm. */
const LEAST_RPM = 1;

/**
 * The yearly swing of a common movement: rpm = a + b t + c cos(2 pi t / year) + d sin(2 pi t / year), fitted robustly to
 * the weeks with the steps taken out. amplitude = sqrt(c^2 + d^2); its error is that of c and d, widened by
 * sqrt((1 + r) / (1 - r)) for weeks that follow one another, r their autocorrelation of lag 1.
 */
export function measureSeason(weeks: readonly MovedWeek[], steps: readonly Step[]): MeasuredSeason {
  const first = weeks[0];
  const last = weeks.at(-1);
  if (first === undefined || last === undefined || last.ms - first.ms < LEAST_MS)
    return { state: 'too_short' };
  const told = weeks.filter(({ ms }) => steps.every((step) => Math.abs(ms - step.ms) > BESIDE_STEP_MS));
  const phase = (ms: number) => (2 * Math.PI * (ms - NEW_YEAR_MS)) / YEAR_MS;
  const y = told.map(({ ms, rpm }) =>
    steps.reduce((left, step) => (ms > step.ms ? left - step.rpm : left), rpm),
  );
  const rows = told.map(({ ms }) => [(ms - first.ms) / YEAR_MS, Math.cos(phase(ms)), Math.sin(phase(ms))]);
  const fit = fitRobustRegression({ rows, y });
  if (isDeclined(fit)) return { state: 'too_short' };
  const [a = 0, b = 0, c = 0, d = 0] = fit.coefficients;
  const [, , seCos = 0, seSin = 0] = fit.se;
  const residuals = y.map((value, i) => {
    const [t = 0, cos = 0, sin = 0] = rows[i] ?? [];
    return value - (a + b * t + c * cos + d * sin);
  });
  const r = Math.min(0.95, Math.max(0, measureAutocorrelation(residuals, 1)));
  const errorRpm = Math.max(seCos, seSin) * Math.sqrt((1 + r) / (1 - r));
  const amplitudeRpm = Math.hypot(c, d);
  if (amplitudeRpm < LEAST_RPM || amplitudeRpm < LEAST_SIGMA * errorRpm)
    return { state: 'not_seen', errorRpm };
  const share = (Math.atan2(d, c) / (2 * Math.PI) + 1) % 1;
  const highestMonth = new Date(NEW_YEAR_MS + share * YEAR_MS).getUTCMonth();
  return { state: 'measured', amplitudeRpm, errorRpm, highestMonth };
}
