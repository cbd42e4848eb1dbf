import { describe, expect, it } from 'vitest';
import { fitSharedShape } from '#server/engine/life/fit-shared-shape.ts';
import { expectCase, readCase } from './published-case.ts';

interface Lives {
  time?: number[];
  exit?: number[];
  entry?: number[];
  status: number[];
  count?: number[];
}

/** So many of each life that the prior on the shape weighs nothing beside them: what is left is maximum likelihood. */
const MANY = 1e9;

describe('the shape that groups share, of one group, is that of maximum likelihood', () => {
  it.each(['12-life-diesel-fan', '12-life-shock-absorber'])('%s', (id) => {
    const one = readCase(id);
    const { shape } = fitSharedShape([toLives(one.input as Lives)]);
    const printed = expectCase(one, { weibull: { beta: shape } });
    if (id === '12-life-diesel-fan') expect(printed).toContain('weibull/beta');
  });

  it('13-ltweib-macs, with late entry', () => {
    const one = readCase('13-ltweib-macs');
    expectCase(one, { beta: fitSharedShape([toLives(one.input as Lives)]).shape });
  });
});

// Each group with its time in another unit: the scales differ, the shape they share does not.
it('is the same where the groups have scales of their own', () => {
  const lives = toLives(readCase('12-life-shock-absorber').input as Lives);
  const slower = lives.map((life) => ({ ...life, exit: life.exit * 7 }));
  expect(fitSharedShape([lives, slower]).shape).toBeCloseTo(3.160470314513, 6);
});

function toLives({ time, exit, entry, status, count }: Lives) {
  return (exit ?? time ?? []).map((at, i) => ({
    entry: entry?.[i] ?? 0,
    exit: at,
    event: status[i] === 1,
    count: (count?.[i] ?? 1) * MANY,
  }));
}
