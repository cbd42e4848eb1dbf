import { type Matrix, solve } from 'ml-matrix';

/** A share of its own information this small is rounding: correlation of more than 1 - 5e-10 with the others. */
const NOTHING = 1e-9;

/**
 * The first covariate that brings nothing of its own to a Cox regression.
 *
 * Going through the covariates, residual information of j given those before: I_jj - I_jb I_bb^-1 I_bj, at coefficients of 0.
 *
 * @param information of standardised covariates at coefficients of 0
 * @param events      how many failures it is the sum over
 * @returns null where each brings something; else its index, and those before it that it is a combination of, none where it does
 * not differ among lives at risk together
 * Source: Belsley, Kuh and Welsch (1980), Regression Diagnostics, chapter 3, for the idea (from memory); own bound.
 * Edges: no covariates give null. Errors: none.
 * @example findDependence(new Matrix([[1, 2], [2, 4]]), 1) // { index: 1, of: [0] }
 */
export function findDependence(information: Matrix, events: number): { index: number; of: number[] } | null {
  for (let j = 0; j < information.rows; j++) {
    const own = information.get(j, j);
    if (!(own > NOTHING * events)) return { index: j, of: [] };
    if (j === 0) continue;
    const before = Array.from({ length: j }, (_, i) => i);
    const across = information.selection(before, [j]);
    const shares = solve(information.selection(before, before), across);
    if (own - across.dot(shares) > NOTHING * own) continue;
    return { index: j, of: before.filter((i) => Math.abs(shares.get(i, 0)) > 1e-6) };
  }
  return null;
}
