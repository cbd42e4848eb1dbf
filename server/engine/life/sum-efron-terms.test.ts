import { expect, it } from 'vitest';
import { type EfronTerms, sumEfronTerms } from './sum-efron-terms.ts';

function sumPlainly(s: number, t: number, ties: number): EfronTerms {
  const sums = { log: 0, over: 0, phiOver: 0, overSquare: 0, phiOverSquare: 0, phi2OverSquare: 0 };
  for (let l = 0; l < ties; l++) {
    const [phi, q] = [l / ties, s - (l / ties) * t];
    sums.log += Math.log(q);
    sums.over += 1 / q;
    sums.phiOver += phi / q;
    sums.overSquare += 1 / q ** 2;
    sums.phiOverSquare += phi / q ** 2;
    sums.phi2OverSquare += phi ** 2 / q ** 2;
  }
  return sums;
}

it('runs as its note says', () => {
  const { over, phiOver } = sumEfronTerms(4, 2, 2);
  expect([over, phiOver]).toEqual([expect.closeTo(1 / 4 + 1 / 3, 14), expect.closeTo(1 / 6, 14)]);
});

it.each([
  [5, 2, 1],
  [5, 5, 64],
  [5, 5, 65],
  [5, 4.9, 100],
  [5, 5, 1000],
  [5, 1e-6, 777],
  [5, 4.99, 100_000],
])('sums as one by one: s %d, t %d, %d ties', (s, t, ties) => {
  const plain = sumPlainly(s, t, ties);
  const terms = sumEfronTerms(s, t, ties);
  for (const key of Object.keys(plain) as (keyof EfronTerms)[])
    expect(Math.abs(terms[key] - plain[key]), key).toBeLessThanOrEqual(1e-9 * Math.abs(plain[key]));
});
