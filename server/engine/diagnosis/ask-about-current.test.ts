import { describe, expect, it } from 'vitest';
import { askAboutCurrent } from './ask-about-current.ts';

const band = { expectedA: 1, lowA: 0.75, highA: 1.25 };

it('runs as its note says', () => {
  expect(askAboutCurrent({ offA: 20, onA: 1040 }, band)[0]?.kind).toBe('milliamps');
});

describe('currents that may be slips of the pen', () => {
  it.each([
    ['below 0', -1, 0, 'negative_current', { offA: 1, onA: 0 }],
    ['below 0 as a clamp the wrong way round gives', 0, -1.02, 'negative_current', { offA: 0, onA: 1.02 }],
    ['both in milliamps', 20, 1040, 'milliamps', { offA: 0.02, onA: 1.04 }],
    ['on in milliamps alone', 0.02, 1020, 'milliamps', { offA: 0.02, onA: 1.02 }],
    ['off in milliamps alone', 20, 1.02, 'milliamps', { offA: 0.02, onA: 1.02 }],
    ['swapped', 1.02, 0.02, 'swapped', { offA: 0.02, onA: 1.02 }],
    ['more than a fuse carries', 0, 55, 'clamp_range', null],
  ] as const)('asks about figures %s', (_, offA, onA, kind, suggestion) => {
    expect(askAboutCurrent({ offA, onA }, band)).toEqual([expect.objectContaining({ kind, suggestion })]);
  });

  it.each([
    ['that fit', 0, 1],
    ['that fit beside other consumers', 6, 7],
    ['of no current', 0, 0],
    ['that hardly fall', 1.05, 1],
    ['that are too low', 0, 0.4],
    ['of a short', 0, 12],
  ])('asks nothing about figures %s', (_, offA, onA) => {
    expect(askAboutCurrent({ offA, onA }, band)).toEqual([]);
  });
});
