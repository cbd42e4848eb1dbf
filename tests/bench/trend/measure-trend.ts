import { freemem } from 'node:os';
import { isDeclined } from '#server/engine/declined.ts';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import { testMannKendall } from '#server/engine/trend/test-mann-kendall.ts';
import type { Tell } from '#tests/bench/report.ts';
import { median } from '#tests/bench/timing.ts';
import { seededRandom } from '#tests/helpers/seeded-random.ts';
import { askScipy } from './ask-scipy.ts';
import { plainKendallS, plainTheilSenSlope } from './plain-loops.ts';

/** Points and how often both are done. */
const SIZES = [
  [300, 51],
  [3_000, 9],
  [30_000, 1],
] as const;
/** scipy lists all pairs in several matrices: 30,000 points would take tens of gigabytes. */
const MOST_FOR_SCIPY = 3_000;
const SLOPE_BYTES = 8;

/** Theil-Sen and Mann-Kendall of the engine against a loop over all pairs, and against scipy where it is. All must agree. */
export async function measureTrend(scale: number, tell: Tell): Promise<void> {
  for (const [points, rounds] of SIZES) {
    if (scale < 1 && points > 3_000) continue;
    const { normal } = seededRandom(points);
    const x = Array.from({ length: points }, (_, i) => 500 * i + 100 * normal());
    const y = x.map((one) => 12 + 0.0002 * one + 2 * normal());
    const scipy = askScipy({ x, y, slopes: points <= MOST_FOR_SCIPY, rounds: Math.min(9, rounds) });
    measureLine(x, y, rounds, scipy, tell);
    measureKendallTest(x, y, rounds, scipy, tell);
  }
}

type Scipy = ReturnType<typeof askScipy>;

function measureLine(
  x: readonly number[],
  y: readonly number[],
  rounds: number,
  scipy: Scipy,
  tell: Tell,
): void {
  const name = `Theil-Sen, ${x.length} points`;
  const engine = () => {
    const line = fitTheilSen({ x, y });
    if (isDeclined(line)) throw new Error('fitTheilSen declined');
    return line.slope;
  };
  const pairBytes = (SLOPE_BYTES * x.length * (x.length - 1)) / 2;
  const plain = pairBytes < freemem() / 2 ? () => plainTheilSenSlope(x, y) : null;
  const found = compare(engine, plain, rounds);
  requireEqual(name, found.value, found.plainValue);
  tell({
    figure: `${name}, slope with limits`,
    value: 1000 * found.seconds,
    unit: 'ms',
    ...(found.plainSeconds === null
      ? {}
      : {
          reference: { what: 'a loop over all pairs, the median selected', value: 1000 * found.plainSeconds },
        }),
  });
  if (plain === null)
    tell({ figure: `${name}: memory for a loop over all pairs`, value: 0, unit: 'GiB free' });
  if (scipy?.line === null || scipy === null) {
    const why = scipy === null ? 'scipy is not present' : 'not asked of scipy, which would list all pairs';
    tell({ figure: `${name}, ${why}`, value: 1000 * found.seconds, unit: 'ms' });
    return;
  }
  requireEqual(`${name}, scipy`, found.value, scipy.line.slope);
  tell({
    figure: `${name}, slope with limits, against scipy`,
    value: 1000 * found.seconds,
    unit: 'ms',
    reference: { what: `scipy ${scipy.version}, theilslopes`, value: 1000 * scipy.line.seconds },
  });
}

function measureKendallTest(
  x: readonly number[],
  y: readonly number[],
  rounds: number,
  scipy: Scipy,
  tell: Tell,
): void {
  const name = `Mann-Kendall, ${x.length} points`;
  let tau = Number.NaN;
  const engine = () => {
    const kendall = testMannKendall({ x, y });
    if (isDeclined(kendall)) throw new Error('testMannKendall declined');
    tau = kendall.tauB;
    return kendall.s;
  };
  const found = compare(engine, () => plainKendallS(x, y), rounds);
  requireEqual(name, found.value, found.plainValue);
  tell({
    figure: name,
    value: 1000 * found.seconds,
    unit: 'ms',
    reference: { what: 'a loop over all pairs', value: 1000 * (found.plainSeconds ?? Number.NaN) },
  });
  if (scipy === null) {
    tell({ figure: `${name}, scipy is not present`, value: 1000 * found.seconds, unit: 'ms' });
    return;
  }
  requireEqual(`${name}, scipy`, tau, scipy.kendall.tau);
  tell({
    figure: `${name}, against scipy`,
    value: 1000 * found.seconds,
    unit: 'ms',
    reference: { what: `scipy ${scipy.version}, kendalltau`, value: 1000 * scipy.kendall.seconds },
  });
}

/** Medians of both, done in turn. */
function compare(engine: () => number, plain: (() => number) | null, rounds: number) {
  const [own, other]: [number[], number[]] = [[], []];
  let [value, plainValue]: [number, number | null] = [Number.NaN, null];
  // Once before it counts: compiled, as in a server that has run for a while.
  engine();
  for (let round = 0; round < rounds; round++) {
    const before = performance.now();
    value = engine();
    const between = performance.now();
    own.push((between - before) / 1000);
    if (plain === null) continue;
    plainValue = plain();
    other.push((performance.now() - between) / 1000);
  }
  return { value, plainValue, seconds: median(own), plainSeconds: plain === null ? null : median(other) };
}

function requireEqual(name: string, found: number, other: number | null): void {
  if (other !== null && !(Math.abs(found - other) <= 1e-12 * Math.max(1e-300, Math.abs(other))))
    throw new Error(`${name}: the engine has ${found}, the reference ${other}`);
}
