import { expect, it } from 'vitest';
import { fitHinge } from '#server/engine/trend/fit-hinge.ts';
import { fitLevelShift } from '#server/engine/trend/fit-level-shift.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

// Bacon and Watts (1971), Biometrika 58, 525-534, stagnant band height: computed values only. A public library for
// segmented regression gives the break 0.0411 with standard error 0.023 on the same rows.
it('finds the kink in the height of the stagnant band', () => {
  const one = readCase('07-hinge-stagnant');
  const hinge = had(fitHinge(one.input as { x: number[]; y: number[] }));
  expectCase(one, {
    breakpoint: hinge.break,
    intercept: hinge.intercept,
    slope_before: hinge.slopeBefore,
    slope_after: hinge.slopeAfter,
    rss: hinge.rss,
    residual_sd_df_n_minus_4: hinge.residualSd,
    rss_single_line: hinge.rssStraight,
  });
  // The likelihood interval is of the size that the standard error 0.023 of the linearised fit gives.
  expect(hinge.high - hinge.low).toBeGreaterThan(2 * 1.5 * 0.023);
  expect(hinge.high - hinge.low).toBeLessThan(2 * 3 * 0.023);
});

// Cobb (1978), Biometrika 65, 243-251, flow of the Nile; values printed in the test output of a public library to
// Zeileis et al. (2003), Comput. Statist. Data Anal. 44, 109-123: mark a.
it('finds the shift in the flow of the Nile', () => {
  const one = readCase('07-shift-nile');
  const { start_year, y } = one.input as { start_year: number; y: number[] };
  const shift = had(fitLevelShift({ x: y.map((_, i) => start_year + i), y }));
  const printed = expectCase(one, {
    last_index_of_first_segment: shift.pointsBefore,
    mean_before: shift.before,
    mean_after: shift.after,
    rss_no_break: shift.rssFlat,
    rss_one_break: shift.rss,
    F_at_break: shift.f,
  });
  expect(printed).toHaveLength(4);
  expect(shift.lastBefore).toBe(1898);
  expect(shift.p).toBeLessThan(1e-8);
  // The library of the case has the years 1895 to 1902 for its 95 % interval, by another theory: of the same size here.
  expect(shift.low).toBeGreaterThanOrEqual(1893);
  expect(shift.low).toBeLessThan(1898);
  expect(shift.high).toBeGreaterThan(1898);
  expect(shift.high).toBeLessThanOrEqual(1904);
});
