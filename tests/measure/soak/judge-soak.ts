import type { SoakReport } from './run-soak.ts';

/** What an assessment of the whole fleet may hold up, on two cores that also write the deliveries. */
const LONGEST_BACKLOG_S = 10;

/** What a run must not show, one sentence each; memory that is undecided passes only where the run was too short to tell. */
export function judgeSoak(report: SoakReport, memoryMayBeUndecided: boolean): string[] {
  const faults: string[] = [];
  const fault = (found: boolean, what: string) => {
    if (found) faults.push(what);
  };
  const { errors, connections, rss, heap } = report;
  fault(errors.length > 0, `${errors.length} errors, the first of them: ${errors[0]}`);
  fault(report.missingLines > 0, `${report.missingLines} lines were acknowledged and are not there`);
  fault(report.surplusLines > 0, `${report.surplusLines} lines are there twice or were never acknowledged`);
  fault(
    report.deliveredLinesPerS < report.plannedLinesPerS * (1 - LONGEST_BACKLOG_S / (60 * report.minutes)),
    `${report.deliveredLinesPerS} lines/s of ${report.plannedLinesPerS} could be delivered`,
  );
  fault(connections.activeAtEnd > 0, `${connections.activeAtEnd} connections did not come to rest`);
  fault(report.exitCode !== 0, `the program ended with ${report.exitCode}`);
  for (const [name, { verdict }] of Object.entries({ 'resident memory': rss, heap }))
    fault(verdict === 'grows' || (verdict === 'undecided' && !memoryMayBeUndecided), `${name}: ${verdict}`);
  return faults;
}
