import { describe, expect, it } from 'vitest';
import { fitName, foldName } from './fit-name.ts';
import { textWidth } from './text-width.ts';

describe('a name at the end of a line', () => {
  it('stays whole where it fits', () => {
    expect(foldName('Morvelt bus', 200, 13)).toEqual(['Morvelt bus']);
  });

  it('takes two lines, as even as words allow', () => {
    expect(foldName('Korvandel utility truck', 110, 13)).toEqual(['Korvandel', 'utility truck']);
  });

  it('is shortened in its middle where it has no words to break between', () => {
    const [line = '', ...others] = foldName('REGIONAL-SERVICES/NORTH-EAST/000417-B', 100, 13);
    expect(others).toEqual([]);
    expect(line).toMatch(/^REG.*…/);
    expect(line).toBe(fitName('REGIONAL-SERVICES/NORTH-EAST/000417-B', 100, 13));
  });

  it('keeps its first and last words whole where two lines are too few', () => {
    const fold = (name: string) => foldName(name, 95, 13);
    expect(fold('Korvandel utility truck, Korvandel heavy automatic')).toEqual(['Korvandel', '…automatic']);
    expect(fold('Morvelt bus, Morvelt six-gear automatic')).toEqual(['Morvelt bus,', '…automatic']);
  });

  it('keeps its first word whole on one line', () => {
    const short = fitName('Korvandel utility truck, Korvandel heavy automatic', 95, 13);
    expect(short).toMatch(/^Korvandel….*tic$/);
    expect(textWidth(short, 13)).toBeLessThanOrEqual(95);
  });
});
