export interface EfronTerms {
  /** sum of log q over the d failures at one mileage, q = s - phi t */
  log: number;
  /** sums of 1 / q, phi / q, 1 / q^2, phi / q^2 and phi^2 / q^2 */
  over: number;
  phiOver: number;
  overSquare: number;
  phiOverSquare: number;
  phi2OverSquare: number;
}

/** So many terms are summed one by one, and so many next to where q vanishes. */
const PLAIN = 64;
/** Gauss-Legendre rule of 8 points on -1 to 1, Abramowitz and Stegun (1964), table 25.4. */
const NODES = [
  [0.1834346424956498, 0.362683783378362],
  [0.525532409916329, 0.31370664587788727],
  [0.7966664774136267, 0.22238103445337448],
  [0.9602898564975363, 0.10122853629037626],
] as const;

/**
 * Sums over tied failures in Efron's partial likelihood, at a cost that does not grow with their number.
 *
 * phi_l = l / d, q_l = s - phi_l t, l = 0 ... d - 1. From 65 ties on, but for the last 64, by the midpoint form of Euler and Maclaurin:
 * sum of g(l) from 0 to L - 1 = integral of g from -1/2 to L - 1/2 less (g(L) - g(L - 1) - g(0) + g(-1)) / 24, the integral
 * by Gauss-Legendre on pieces no longer than half the way to where q vanishes.
 *
 * @param s    sum of the risks of all at risk, above 0
 * @param t    sum of the risks of those that fail, above 0, at most s
 * @param ties how many fail, whole, 1 or more: d
 * @returns the six sums; for many ties within some 1e-9 of themselves
 * Source: Efron (1977), J. Amer. Statist. Assoc. 72, 557-565; Abramowitz and Stegun (1964), 25.4.29 and 23.1.30.
 * Edges: s = t, where all at risk fail. Errors: none.
 * @example sumEfronTerms(4, 2, 2) // over 1/4 + 1/3, phiOver 1/6
 */
export function sumEfronTerms(s: number, t: number, ties: number): EfronTerms {
  if (ties === 1) {
    const over = 1 / s;
    return {
      log: Math.log(s),
      over,
      phiOver: 0,
      overSquare: over * over,
      phiOverSquare: 0,
      phi2OverSquare: 0,
    };
  }
  const sums = { log: 0, over: 0, phiOver: 0, overSquare: 0, phiOverSquare: 0, phi2OverSquare: 0 };
  const add = (l: number, weight: number) => {
    const phi = l / ties;
    const q = s - phi * t;
    const over = weight / q;
    const square = over / q;
    sums.log += weight * Math.log(q);
    sums.over += over;
    sums.phiOver += phi * over;
    sums.overSquare += square;
    sums.phiOverSquare += phi * square;
    sums.phi2OverSquare += phi * phi * square;
  };
  const end = ties * (s / t);
  const integrated = ties <= PLAIN ? 0 : end - ties < PLAIN ? ties - PLAIN : ties;
  for (let l = integrated; l < ties; l++) add(l, 1);
  if (integrated === 0) return sums;
  const to = integrated - 0.5;
  for (let from = -0.5; from < to; ) {
    const until = Math.min(to, from + (end - from) / 2);
    const half = (until - from) / 2;
    for (const [node, weight] of NODES)
      for (const side of [-node, node]) add(from + half * (1 + side), weight * half);
    from = until;
  }
  for (const [l, weight] of [
    [integrated, -1],
    [integrated - 1, 1],
    [0, 1],
    [-1, -1],
  ] as const)
    add(l, weight / 24);
  return sums;
}
