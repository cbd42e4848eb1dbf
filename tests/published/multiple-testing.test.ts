import { expect, it } from 'vitest';
import { adjustPValues } from '#server/engine/multiplicity/adjust-p-values.ts';
import { expectCase, readCase } from './published-case.ts';

// Benjamini and Hochberg (1995), J. R. Statist. Soc. B 57, 289-300, example p. 295: mark a.
it('calls the four end points of the thrombolysis trial', () => {
  const one = readCase('09-fdr-bh1995');
  const { p } = one.input as { p: number[] };
  const adjusted = adjustPValues(p);
  const printed = expectCase(one, {
    adj_bh: adjusted,
    'n_rejected_bh_0.05': adjusted.filter((q) => q <= 0.05).length,
  });
  expect(printed).toEqual(['n_rejected_bh_0.05', 'adj_bh']);
});

// The same trial: what Bonferroni calls, mark a; the adjusted values of the other rules, computed values only.
it('adjusts them by stricter rules too', () => {
  const one = readCase('09-fdr-bh1995');
  const { p } = one.input as { p: number[] };
  const bonferroni = adjustPValues(p, 'bonferroni');
  const printed = expectCase(one, {
    adj_by: adjustPValues(p, 'by'),
    adj_bonferroni: bonferroni,
    adj_holm: adjustPValues(p, 'holm'),
    adj_hochberg: adjustPValues(p, 'hochberg'),
    'n_rejected_bonferroni_0.05': bonferroni.filter((q) => q <= 0.05).length,
  });
  expect(printed).toEqual(['n_rejected_bonferroni_0.05']);
});
