import { describe, expect, it } from 'vitest';
import { testSteps } from '#server/contract/words.ts';
import { packetCautions, stepTexts } from './step-texts.ts';

describe.each(testSteps)('the step %s', (step) => {
  it('says what it is for and how it is done, and what can hurt', () => {
    const { title, whatFor, how, cautions } = stepTexts[step];
    for (const text of [title, whatFor]) expect(text.length).toBeGreaterThan(3);
    expect(how.length).toBeGreaterThan(2);
    expect(cautions.length).toBeGreaterThan(0);
    expect(new Set(cautions).size).toBe(cautions.length);
  });

  it('clears nothing and names no diagnosis', () => {
    expect(JSON.stringify(stepTexts[step])).not.toMatch(/diagnos|\bsafely\b|guarantee/i);
  });
});

describe('cautions', () => {
  it.each([
    ['road_test', 'Road test'],
    ['solenoid_current', 'Jumpered circuits'],
    ['pressure', 'Pressure gauges'],
    ['pressure', 'Raised vehicle'],
    ['pan', 'Raised vehicle'],
    ['pan', 'Hot fluid'],
    ['cooler', 'Flushing'],
    ['fluid', 'Exhaust'],
  ] as const)('of %s name %s', (step, words) => {
    expect(stepTexts[step].cautions.filter((one) => one.startsWith(words))).toHaveLength(1);
  });

  it('of the packet begin with who decides, and cover all of the work', () => {
    expect(packetCautions[0]).toMatch(/service information, local codes and licensed technicians decide/);
    for (const words of ['Road', 'Raised', 'Hot fluid', 'Exhaust', 'Jumper', 'Pressure', 'Flush', 'Heavy'])
      expect(
        packetCautions.some((one) => one.startsWith(words)),
        words,
      ).toBe(true);
  });
});
