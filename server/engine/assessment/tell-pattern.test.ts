import { describe, expect, it } from 'vitest';
import { makeCaseSummary } from '#tests/helpers/make-case-summary.ts';
import { type PatternEvidence, tellPattern } from './tell-pattern.ts';

const summary = makeCaseSummary();
const rising: PatternEvidence = {
  summary,
  limitRpm: 150,
  arrivedSlipping: false,
  fellBack: false,
  bandRises: [],
  hotRpmPerC: { own: 0.2, usual: 0.2 },
  hasCode: false,
  risen: true,
};
const quiet: PatternEvidence = {
  ...rising,
  risen: false,
  summary: { ...summary, level: { mean: 20, sd: 1 } },
};
const rises = (low: number, high: number, seRpm = 2) => [
  { band: 0, riseRpm: low, seRpm },
  { band: 1, riseRpm: (low + high) / 2, seRpm },
  { band: 3, riseRpm: high, seRpm },
];

it('runs as its note says', () => {
  expect(tellPattern({ ...quiet, hasCode: true })).toBe('code_only');
});

describe('without evidence of a rise', () => {
  it('tells none, a fall, or a code, and a fall before a code', () => {
    expect(tellPattern(quiet)).toBe('none');
    expect(tellPattern({ ...quiet, fellBack: true })).toBe('fell_back');
    expect(tellPattern({ ...quiet, fellBack: true, hasCode: true })).toBe('fell_back');
  });
  it('tells full slip all the same', () => {
    expect(tellPattern({ ...quiet, summary: { ...summary, level: { mean: 376, sd: 5 } } })).toBe('full_slip');
  });
});

describe('with a rise', () => {
  it('tells a drift at all commands where nothing else stands out', () => {
    expect(tellPattern(rising)).toBe('drift_all_commands');
    expect(tellPattern({ ...rising, bandRises: rises(60, 55) })).toBe('drift_all_commands');
  });

  it('tells low from high command by the rises of the bands of each half', () => {
    expect(tellPattern({ ...rising, bandRises: rises(60, 10) })).toBe('drift_low_command');
    expect(tellPattern({ ...rising, bandRises: rises(10, 60) })).toBe('drift_high_command');
  });

  it('tells nothing of command from one odd band beside others that disagree', () => {
    const fourBands = (...riseRpm: number[]) =>
      tellPattern({ ...rising, bandRises: riseRpm.map((one, band) => ({ band, riseRpm: one, seRpm: 2 })) });
    expect(fourBands(21, 141, 126, 116)).toBe('drift_all_commands');
    expect(fourBands(104, 149, 80, 9)).toBe('drift_all_commands');
    expect(fourBands(104, 149, 40, 9)).toBe('drift_low_command');
    expect(fourBands(-6, 10, 60, 49)).toBe('drift_high_command');
  });

  it('does not tell commands apart within the error, or from one band', () => {
    expect(tellPattern({ ...rising, bandRises: rises(60, 10, 15) })).toBe('drift_all_commands');
    expect(tellPattern({ ...rising, bandRises: rises(60, 10).slice(0, 1) })).toBe('drift_all_commands');
  });

  it('tells a rise that comes with heat, and one that gets steeper', () => {
    expect(tellPattern({ ...rising, hotRpmPerC: { own: 1.1, usual: 0.2 } })).toBe('drift_hot');
    expect(tellPattern({ ...rising, summary: { ...summary, accelerating: 0.9 } })).toBe('accelerating');
  });

  it('asks in its order: full slip, arrival, jump, heat, command, steeper', () => {
    const all: PatternEvidence = {
      ...rising,
      summary: { ...summary, stepping: 0.9, accelerating: 0.9, level: { mean: 400, sd: 5 } },
      arrivedSlipping: true,
      fellBack: true,
      hasCode: true,
      hotRpmPerC: { own: 2, usual: 0.2 },
      bandRises: rises(60, 10),
    };
    const lower = { ...all, summary: { ...all.summary, level: { mean: 100, sd: 2 } } };
    const seen = { ...lower, arrivedSlipping: false };
    const drifting = { ...seen, summary: { ...seen.summary, stepping: 0.1 } };
    const cool = { ...drifting, hotRpmPerC: { own: 0.2, usual: 0.2 } };
    expect([all, lower, seen, drifting, cool, { ...cool, bandRises: [] }].map(tellPattern)).toEqual([
      'full_slip',
      'slipping_on_arrival',
      'step_then_level',
      'drift_hot',
      'drift_low_command',
      'accelerating',
    ]);
  });
});
