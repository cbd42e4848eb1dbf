export interface FaultFigures {
  fault: string;
  made: string;
  /** deliveries sent */
  tried: number;
  /** lines that were acknowledged, refused ones included */
  acknowledged: number;
  lost: number;
  twice: number;
  /** from the fault to the first answer after it; empty where the program went on serving */
  againMs?: readonly number[];
}

/** One row of the table `Faults` in docs/measurements.md; shown by `npm run faults`. */
export function reportFault({
  fault,
  made,
  tried,
  acknowledged,
  lost,
  twice,
  againMs = [],
}: FaultFigures): void {
  if (process.env.SLIPDRIFT_FAULT_ROUNDS === undefined) return;
  const seconds = (ms: number) => `${(ms / 1000).toFixed(1)} s`;
  const sorted = againMs.toSorted((a, b) => a - b);
  const middle = sorted[Math.floor(sorted.length / 2)];
  const longest = sorted.at(-1);
  const again =
    middle === undefined || longest === undefined ? '' : `${seconds(middle)}, at most ${seconds(longest)}`;
  process.stdout.write(`| ${[fault, made, tried, acknowledged, lost, twice, again].join(' | ')} |\n`);
}
