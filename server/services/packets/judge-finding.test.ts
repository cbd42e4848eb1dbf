import { describe, expect, it } from 'vitest';
import type { z } from 'zod';
import { findingInput, judgement, question } from '#server/contract/test-steps.ts';
import { type JudgedPlatform, judgeFinding } from './judge-finding.ts';

const platform: JudgedPlatform = {
  limitRpm: 150,
  lowestDutyPct: 40,
  solenoid: { ohm: 5.5, supply_v: 24, wiring_ohm: 0.5, tolerance_pct: 25 },
  healthy: [{ dutyPct: 77.5, lowRpm: 4.2, usualRpm: 11, highRpm: 20.3 }],
};
const bare: JudgedPlatform = { ...platform, solenoid: null, healthy: [] };

function judge(input: z.input<typeof findingInput>, by = platform) {
  const judged = judgeFinding(findingInput.parse(input), by);
  if (judged.kind === 'asked') throw new Error(`asked: ${judged.questions[0]?.message}`);
  return judgement.parse(judged.judgement);
}

function ask(input: z.input<typeof findingInput>, by = platform) {
  const judged = judgeFinding(findingInput.parse(input), by);
  if (judged.kind === 'judged') throw new Error(`judged: ${judged.judgement.words}`);
  return judged.questions.map((one) => question.parse(one));
}

describe('the current of the solenoid', () => {
  const input = { step: 'solenoid_current', off_a: 0.1, on_a: 4.1 } as const;

  it('is judged by the arithmetic that it shows', () => {
    const judged = judge(input);
    expect(judged).toMatchObject({ result: 'current_right', verdict: 'passed', look_next: [] });
    expect(judged.words).toContain('4.0 A');
    expect(judged.rule).toContain('24 V / (5.5 + 0.5) ohm = 4.0 A, 3.0 to 5.0 A with 25 %');
  });

  it('is judged by the measured supply where there is one', () => {
    const judged = judge({ ...input, supply_v: 12 });
    expect(judged.result).toBe('current_high');
    expect(judged.rule).toContain(
      '12 V / (5.5 + 0.5) ohm = 2.0 A, 1.5 to 2.5 A with 25 %, the supply as measured',
    );
  });

  it('says how much less a hot coil draws, and names where that is from', () => {
    // 24 V / (5.5 ohm * (1 + 0.00393 * 80) + 0.5 ohm) = 3.1 A, IEC 60028 from memory
    const [heat] = judge({ ...input, on_a: 2.6 }).look_next;
    expect(heat).toContain('0.39 %');
    expect(heat).toContain('IEC 60028');
    expect(heat).toContain('3.1 A instead of 4.0 A');
  });

  it('does not show the bound and a current below it as the same', () => {
    expect(judge({ ...input, off_a: 0.02, on_a: 2.98 }).words).toBe(
      'Current changes by 2.96 A, less than 3.00 A.',
    );
  });

  it('says that the platform lacks its figures, and cannot tell beyond what is usual', () => {
    const judged = judge(input, bare);
    expect(judged).toMatchObject({ result: 'current_high', verdict: 'unclear' });
    expect(judged.rule).toContain('lacks the figures of its solenoid');
    expect(judged.rule).toContain('common practice, no source');
    expect(judge({ ...input, on_a: 1.1 }, bare)).toMatchObject({
      result: 'current_right',
      verdict: 'passed',
    });
  });

  it.each([
    [4.1, 0.1, 'Yes, swap them: 0.1 A off and 4.1 A on', { off_a: 0.1, on_a: 4.1 }],
    [10, 4100, 'Yes: 0.01 A off and 4.1 A on', { off_a: 0.01, on_a: 4.1 }],
    [0, -4, 'Yes: 0 A off and 4 A on', { off_a: 0, on_a: 4 }],
  ])('asks about %d A off and %d A on, and offers what they may be', (off_a, on_a, says, suggestion) => {
    expect(ask({ ...input, off_a, on_a })).toEqual([
      expect.objectContaining({ suggestion, suggestion_says: says }),
    ]);
  });

  it('offers nothing where it knows nothing better', () => {
    expect(ask({ ...input, on_a: 90 })).toEqual([
      expect.objectContaining({ field: 'on_a', suggestion: null, suggestion_says: null }),
    ]);
  });

  it('takes what was offered, and what was measured so, without asking again', () => {
    const [offered] = ask({ ...input, off_a: 4.1, on_a: 0.1 });
    expect(judge(findingInput.parse({ ...input, ...offered?.suggestion })).result).toBe('current_right');
    expect(judge({ ...input, off_a: 4.1, on_a: 0.1, as_measured: true }).result).toBe('current_stays');
  });
});

describe('a road test read off an instrument', () => {
  const input = { step: 'road_test', duty_pct: 78, slip_rpm: 540, seconds: 12, falls: false } as const;

  it('slips with the limit named', () => {
    const judged = judge(input);
    expect(judged).toMatchObject({ result: 'slips', verdict: 'failed' });
    expect(judged.words).toContain('540 rpm at 78 % command for 12 s');
    expect(judged.rule).toContain("the platform's limit of 150 rpm");
  });

  it('holds within the healthy range, or within the limit where that is not known, and says which', () => {
    expect(judge({ ...input, slip_rpm: 15 }).words).toContain('as on healthy vehicles');
    const judged = judge({ ...input, slip_rpm: 15 }, bare);
    expect(judged).toMatchObject({ result: 'holds', verdict: 'passed' });
    expect(judged.words).toContain('not known yet');
    expect(judged.rule).toContain('not known yet');
  });

  it('tells slip from the healthy end that it is just over', () => {
    const judged = judge({ ...input, slip_rpm: 20.4 });
    expect(judged.words).toContain('20.4 rpm');
    expect(judged.words).toContain('20.3 rpm');
    expect(judged.rule).toContain('Holds up to 20.3 rpm');
  });

  it.each([
    [{ duty_pct: 30 }, '30 % command'],
    [{ seconds: 3 }, '3 s'],
    [{ slip_rpm: -20, as_measured: true }, 'overrun'],
  ])('says why %o is too little', (some, words) => {
    const judged = judge({ ...input, ...some });
    expect(judged).toMatchObject({ result: 'too_little_steady', verdict: 'unclear' });
    expect(judged.words).toContain(words);
    expect(judged.rule).toContain('5 s or longer at 70 % command');
  });

  it('asks about slip below 0', () => {
    expect(ask({ ...input, slip_rpm: -540 })).toEqual([
      expect.objectContaining({ field: 'slip_rpm', suggestion: { slip_rpm: 540 } }),
    ]);
  });
});

describe('pressure', () => {
  const input = { step: 'pressure', place: 'clutch_port', off: 1, on: 6, smallest_step: 0.2 } as const;

  it('changes by a figure in its unit', () => {
    expect(judge(input).words).toBe(
      'Pressure rises by 5.0 bar when the solenoid is commanded: the valve moves.',
    );
    expect(judge({ ...input, unit: 'psi', off: 85, on: 12, smallest_step: 5 }).words).toContain(
      'falls by 73 psi',
    );
  });

  it('shows the bounds that judged it', () => {
    const judged = judge({ ...input, on: 1.2 });
    expect(judged).toMatchObject({ result: 'pressure_unclear', verdict: 'unclear' });
    expect(judged.rule).toContain('from 0.4 bar on');
    expect(judged.rule).toContain('below 0.2 bar');
  });

  it('stays, and sends to a better place from the main line', () => {
    const judged = judge({ ...input, place: 'line', on: 1 });
    expect(judged).toMatchObject({ result: 'pressure_stays', verdict: 'failed' });
    expect(judged.look_next[0]).toContain('clutch port');
  });

  it('asks about another unit', () => {
    expect(ask({ ...input, on: 90 })).toEqual([
      expect.objectContaining({ field: 'unit', suggestion: { unit: 'psi' }, suggestion_says: 'Yes, psi' }),
    ]);
  });
});

describe('fluid, pan and cooler', () => {
  it('say that low fluid is burnt too', () => {
    const judged = judge({ step: 'fluid', level: 'low', colour: 'black', smell: 'usual' });
    expect(judged.words).toBe('Fluid level is low, and the fluid is burnt.');
    expect(judged.look_next.join()).toContain('Correct the level');
  });

  it('say that nobody checked the level', () => {
    const judged = judge({ step: 'fluid', level: 'not_checked', colour: 'red', smell: 'usual' });
    expect(judged).toMatchObject({ result: 'fluid_right', verdict: 'unclear' });
    expect(judged.words).toContain('not checked');
  });

  it('send from lining in the pan to the cooler', () => {
    const judged = judge({ step: 'pan', debris: 'lining' });
    expect(judged).toMatchObject({ result: 'pan_lining', verdict: 'failed' });
    expect(judged.look_next[0]).toContain('cooler');
  });

  it('show how the flow was reckoned', () => {
    // 60 * 0.5 / 20 = 1.5
    const judged = judge({ step: 'cooler', litres: 0.5, seconds: 20 });
    expect(judged.result).toBe('cooler_restricted');
    expect(judged.rule).toContain('60 x 0.5 L / 20 s = 1.5 L/min; at least 2.8 L/min');
  });

  it('ask where nothing was caught', () => {
    expect(ask({ step: 'cooler', litres: 0, seconds: 20 })[0]?.field).toBe('litres');
  });
});
