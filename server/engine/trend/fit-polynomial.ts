import { inverse, Matrix, QrDecomposition } from 'ml-matrix';
import { type Declined, decline } from '#server/engine/declined.ts';
import { type Points, requirePoints } from './require-points.ts';

/**
 * Least squares: polynomial of a given degree.
 *
 * y = b0 + b1 x + ... + bd x^d. Fitted by QR in u = (x - centre) / half range, then carried back to powers of x:
 * b = C beta, cov(b) = C cov(beta) C', C[j][k] = binomial(k, j) (-centre)^(k - j) / half^k.
 *
 * @param x, y, weight in any order; weights are relative (1 / variance up to a factor)
 * @param degree whole, 1 or more
 * @returns coefficients and standard errors from b0 on, r2 about the mean, rss and residual standard deviation, or
 * declined with not more points than coefficients or too few different x
 * Source: Draper and Smith (1998), Applied Regression Analysis, chapter 12 for polynomials, 5.3 for centring (from
 * memory). Edges: equal y give r2 null; degrees above about 10 lose digits. Errors: as {@link requirePoints};
 * throws on a degree that is not whole or below 1.
 * @example fitPolynomial({ x: [0, 1, 2, 3], y: [1, 2, 5, 10], degree: 2 }) // coefficients 1, 0, 1
 */
export function fitPolynomial({
  degree,
  ...points
}: Points & { degree: number }):
  | { n: number; coefficients: number[]; se: number[]; r2: number | null; rss: number; residualSd: number }
  | Declined {
  if (!Number.isInteger(degree) || degree < 1)
    throw new Error('fitPolynomial requires a whole degree of 1 or more');
  const { n, x, y, w, distinct } = requirePoints('fitPolynomial', points);
  const p = degree + 1;
  if (n <= p) return decline('too few points', `at least ${p + 1}`, `${n}`);
  if (distinct < p) return decline('too few different x', `at least ${p}`, `${distinct}`);
  const first = x[0] ?? 0;
  const half = ((x[n - 1] ?? 0) - first) / 2;
  const centre = first + half;
  const total = w.reduce((a, b) => a + b, 0);
  const mean = y.reduce((sum, one, i) => sum + (w[i] ?? 0) * one, 0) / total;
  const design = Matrix.zeros(n, p);
  const target = Matrix.zeros(n, 1);
  for (let i = 0; i < n; i++) {
    const root = Math.sqrt(w[i] ?? 0);
    target.set(i, 0, root * ((y[i] ?? 0) - mean));
    for (let j = 0; j < p; j++) design.set(i, j, root * (((x[i] ?? 0) - centre) / half) ** j);
  }
  const qr = new QrDecomposition(design);
  const beta = qr.solve(target);
  const rss = Matrix.sub(target, design.mmul(beta)).norm() ** 2;
  const syy = target.norm() ** 2;
  const residualSd = Math.sqrt(rss / (n - p));
  const rInverse = inverse(qr.upperTriangularMatrix);
  const back = Matrix.zeros(p, p);
  for (let k = 0; k < p; k++) {
    let binomial = 1;
    for (let j = k; j >= 0; j--) {
      back.set(j, k, (binomial * (-centre) ** (k - j)) / half ** k);
      binomial = (binomial * j) / (k - j + 1);
    }
  }
  const coefficients = back.mmul(beta).to1DArray();
  coefficients[0] = (coefficients[0] ?? 0) + mean;
  const factor = back.mmul(rInverse);
  return {
    n,
    coefficients,
    se: factor.to2DArray().map((row) => residualSd * Math.hypot(...row)),
    r2: syy > 0 ? 1 - rss / syy : null,
    rss,
    residualSd,
  };
}
