import type { MemoryTrend } from './judge-memory.ts';
import type { SoakReport } from './run-soak.ts';

/** The report as a table for a person. */
export function describeSoak(report: SoakReport): string {
  const { connections, tablesMiB } = report;
  const rows: [string, string][] = [
    [
      'peak, then planned, then delivered',
      `${report.peakLinesPerS}, ${report.plannedLinesPerS}, ${report.deliveredLinesPerS} lines/s`,
    ],
    ['latest delivery behind its time', `${report.latestS.toFixed(1)} s`],
    [
      'lines acknowledged; missing; surplus',
      `${report.acknowledgedLines}; ${report.missingLines}; ${report.surplusLines}`,
    ],
    ['errors', String(report.errors.length)],
    ...Object.entries(report.latencies).map(([name, { n, p50Ms, p99Ms }]): [string, string] => [
      `${name}, ${n} calls`,
      `p50 ${p50Ms} ms, p99 ${p99Ms} ms`,
    ]),
    ['resident memory', describeTrend(report.rss)],
    ['heap of the main thread', describeTrend(report.heap)],
    [
      'connections, most; after the load',
      `${connections.most}; ${connections.atEnd}, ${connections.activeAtEnd} of them active`,
    ],
    ['idle in transaction, most', String(connections.mostWaiting)],
    ['exit code', String(report.exitCode)],
    ...Object.entries(tablesMiB.after)
      .filter(([name, after]) => after >= 1 || after !== tablesMiB.before[name])
      .map(([name, after]): [string, string] => [
        `table ${name}`,
        `${tablesMiB.before[name] ?? 0} to ${after} MiB`,
      ]),
  ];
  const width = Math.max(...rows.map(([what]) => what.length));
  return rows.map(([what, figure]) => `${what.padEnd(width)}  ${figure}`).join('\n');
}

function describeTrend({ verdict, levelMiB, slopeMiBPerH: { low, estimate, high } }: MemoryTrend): string {
  return `${verdict}; ${levelMiB.toFixed(0)} MiB, slope ${estimate.toFixed(1)} (${low.toFixed(1)} to ${high.toFixed(1)}) MiB/h`;
}
