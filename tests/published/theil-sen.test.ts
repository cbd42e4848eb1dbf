import { expect, it } from 'vitest';
import { fitTheilSen } from '#server/engine/trend/fit-theil-sen.ts';
import { had } from './had.ts';
import { expectCase, readCase } from './published-case.ts';

// USEPA (2009), Unified Guidance, example 17-6, pp. 17-33 to 17-34: slope and intercept mark a.
// Sen (1968), J. Amer. Statist. Assoc. 63, 1379-1389, section 6: slope and limits mark a.
// Numbers of important discoveries (The World Almanac, 1975 edition), many ties: computed values only.
it.each([
  ['02-theil-epa-17-6-sulfate', ['slope', 'intercept_separate']],
  ['02-theil-sen1968', ['slope', 'low_slope', 'high_slope', 'intercept_separate', 'intercept_joint']],
  ['02-theil-ties-discoveries', []],
])('fits the line of %s', (id, printed) => {
  const one = readCase(id);
  const { x, y, conf_level } = one.input as { x: number[]; y: number[]; conf_level: number };
  const line = had(fitTheilSen({ x, y, confidence: conf_level }));
  const reached = expectCase(one, {
    n_slopes: line.pairs,
    slope: line.slope,
    intercept_separate: line.intercept,
    intercept_joint: line.interceptJoint,
    low_slope: line.low,
    high_slope: line.high,
  });
  expect(reached).toEqual(printed);
});

// Gilbert (1987), Statistical Methods for Environmental Pollution Monitoring, section 16.5: limits between ranks. Those
// of the sulfate example are mark a, the others computed values only.
it.each([
  ['02-theil-epa-17-6-sulfate', ['gilbert_low', 'gilbert_high']],
  ['02-theil-sen1968', []],
  ['02-theil-ties-discoveries', []],
])('interpolates the limits of %s', (id, printed) => {
  const one = readCase(id);
  const { x, y, conf_level } = one.input as { x: number[]; y: number[]; conf_level: number };
  const line = had(fitTheilSen({ x, y, confidence: conf_level, limits: 'interpolated' }));
  expect(expectCase(one, { gilbert_low: line.low, gilbert_high: line.high })).toEqual(printed);
});
