import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const css = readFileSync(new URL('./tokens.css', import.meta.url), 'utf8');

function tokensAfter(selector: string): Map<string, string> {
  const start = css.indexOf(selector);
  const block = css.slice(start, css.indexOf('}', start));
  return new Map(
    [...block.matchAll(/--([\w-]+): (#[0-9a-f]{6});/g)].map(([, name = '', hex = '']) => [name, hex]),
  );
}

/** Contrast ratio of WCAG 2.2, from its definitions of relative luminance and contrast ratio. */
function contrast(a: string, b: string): number {
  const luminance = (hex: string) => {
    const [red = 0, green = 0, blue = 0] = [1, 3, 5].map((at) => {
      const share = Number.parseInt(hex.slice(at, at + 2), 16) / 255;
      return share <= 0.04045 ? share / 12.92 : ((share + 0.055) / 1.055) ** 2.4;
    });
    return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
  };
  const [light = 0, dark = 0] = [luminance(a), luminance(b)].toSorted((x, y) => y - x);
  return (light + 0.05) / (dark + 0.05);
}

const light = tokensAfter(':root {');
const dark = tokensAfter(':root:not(');
const texts = [
  'ink',
  'ink-soft',
  'ink-faint',
  'accent',
  'grade-hold',
  'grade-book',
  'grade-watch',
  'grade-steady',
  'grade-unknown',
  'group-plum',
  'group-ochre',
  'group-blue',
];

describe('contrast', () => {
  it('measures black on white as 21:1, the end of the scale', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 5);
  });
});

describe.each([
  ['light', light],
  ['dark', dark],
])('the tokens on the %s ground', (_name, tokens) => {
  const value = (name: string) => tokens.get(name) ?? '';

  it.each(texts)('keep 4.5:1 for %s on paper and sunk paper', (name) => {
    expect(contrast(value(name), value('paper'))).toBeGreaterThanOrEqual(4.5);
    expect(contrast(value(name), value('paper-sunk'))).toBeGreaterThanOrEqual(4.5);
  });

  it('keep 3:1 for lines that carry meaning', () => {
    expect(contrast(value('hairline-strong'), value('paper'))).toBeGreaterThanOrEqual(3);
  });
});

it('gives a reader who chose dark the same tones as one whose system is dark', () => {
  expect(tokensAfter(':root[data-theme')).toEqual(dark);
  expect([...dark.keys()]).toEqual([...light.keys()]);
});
