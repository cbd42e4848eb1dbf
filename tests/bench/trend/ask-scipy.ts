import { spawnSync } from 'node:child_process';

/** A general-purpose reference where the machine has one; times are taken within Python, without its start. */
const SCRIPT = `
import json, sys, time
import numpy, scipy
from scipy import stats
asked = json.load(sys.stdin)
x, y = numpy.array(asked["x"]), numpy.array(asked["y"])
def timed(work, rounds):
    seconds = []
    for _ in range(rounds):
        started = time.perf_counter()
        found = work()
        seconds.append(time.perf_counter() - started)
    return found, sorted(seconds)[len(seconds) // 2]
line = None
if asked["slopes"]:
    found, seconds = timed(lambda: stats.theilslopes(y, x), asked["rounds"])
    line = {"slope": float(found[0]), "seconds": seconds}
tau, seconds = timed(lambda: stats.kendalltau(x, y), asked["rounds"])
print(json.dumps({"version": scipy.__version__, "line": line, "kendall": {"tau": float(tau[0]), "seconds": seconds}}))
`;

export interface ScipyAnswer {
  version: string;
  line: { slope: number; seconds: number } | null;
  kendall: { tau: number; seconds: number };
}

export interface ScipyQuestion {
  x: readonly number[];
  y: readonly number[];
  /** whether slopes are asked for: it lists all pairs several times over */
  slopes: boolean;
  rounds: number;
}

/** Null where there is no Python with scipy. */
export function askScipy(question: ScipyQuestion): ScipyAnswer | null {
  const { status, stdout } = spawnSync('python3', ['-c', SCRIPT], {
    input: JSON.stringify(question),
    encoding: 'utf8',
    maxBuffer: 1_048_576,
  });
  return status === 0 ? JSON.parse(stdout) : null;
}
