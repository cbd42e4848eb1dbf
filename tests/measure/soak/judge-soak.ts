import type { SoakReport } from './run-soak.ts';

/** What an assessment of the whole fleet may hold up, on two cores that also write the deliveries. */
const LONGEST_BACKLOG_S = 10;

/** In a minute memory still settles; what grows by this share of its level meanwhile would not settle. */
const RUNAWAY_SHARE = 0.5;

/**
 * What a run must not show, one sentence each. A short one, beside other tests, may fall behind, and shows only memory
 * that runs away.
 */
export function judgeSoak(report: SoakReport, short: boolean): string[] {
  const faults: string[] = [];
  const fault = (found: boolean, what: string) => {
    if (found) faults.push(what);
  };
  const { errors, connections, minutes } = report;
  const backlogS = (1 - report.deliveredLinesPerS / report.plannedLinesPerS) * 60 * minutes;
  fault(errors.length > 0, `${errors.length} errors, the first of them: ${errors[0]}`);
  fault(report.missingLines > 0, `${report.missingLines} lines were acknowledged and are not there`);
  fault(report.surplusLines > 0, `${report.surplusLines} lines are there twice or were never acknowledged`);
  fault(
    !short && backlogS > LONGEST_BACKLOG_S,
    `${report.deliveredLinesPerS} lines/s of ${report.plannedLinesPerS} could be delivered`,
  );
  fault(connections.activeAtEnd > 0, `${connections.activeAtEnd} connections did not come to rest`);
  fault(report.exitCode !== 0, `the program ended with ${report.exitCode}`);
  for (const [name, trend] of Object.entries({ 'resident memory': report.rss, heap: report.heap })) {
    const grown = (trend.slopeMiBPerH.estimate * minutes * 2) / 3 / 60;
    const bad = short
      ? trend.verdict === 'grows' && grown > RUNAWAY_SHARE * trend.levelMiB
      : trend.verdict !== 'flat';
    fault(bad, `${name}: ${trend.verdict}`);
  }
  return faults;
}
