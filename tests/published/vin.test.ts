import { expect, it } from 'vitest';
import { computeVinCheck, judgeVin } from '#server/contract/vin.ts';
import { expectCase, readCase } from './published-case.ts';

// 49 CFR 565.15(c); worked example of Wikipedia, 'Vehicle identification number', and public test suites: mark a.
it('computes the check digit of a VIN', () => {
  const one = readCase('17-vin-wikipedia');
  const { vins } = one.input as { vins: string[] };
  const results = vins.map((vin) => {
    const check = computeVinCheck(vin);
    return { vin, valid: judgeVin(vin).ok, sum: check?.sum, check_digit: check?.digit };
  });
  expect(expectCase(one, { results })).toHaveLength(10);
});
