import { describe, expect, it } from 'vitest';
import { MORE_FONT, PLAIN_FONT } from './paper-fonts.ts';
import { splitRuns } from './split-runs.ts';

const textOf = (text: string) =>
  splitRuns(text)
    .map((run) => run.text)
    .join('');

describe('splitRuns', () => {
  it('keeps plain text in one run', () => {
    expect(splitRuns('Señor Muñoz, 12 °C')).toEqual([{ text: 'Señor Muñoz, 12 °C', font: PLAIN_FONT }]);
  });

  it('takes the letters that the plain face lacks from the other', () => {
    expect(splitRuns('Erdős')).toEqual([
      { text: 'Erd', font: PLAIN_FONT },
      { text: 'ő', font: MORE_FONT },
      { text: 's', font: PLAIN_FONT },
    ]);
  });

  it('joins a letter and its accent before it looks for a face', () => {
    expect(textOf('o\u030b')).toBe('ő');
  });

  it('says a question mark, once, for what no face has', () => {
    expect(textOf('Ж 車 👩‍🔧 🇩🇪')).toBe('? ? ? ?');
  });

  it('says signs in letters where a reader takes them so', () => {
    expect(textOf('20 Ω ≥ 3 → 4')).toBe('20 ohm >= 3 -> 4');
  });

  it('keeps new lines and leaves out what is not seen', () => {
    expect(textOf('a\r\nb\u200bc\u0007d\u00ade')).toBe('a\nbcde');
  });

  it('is empty for nothing', () => {
    expect(splitRuns('')).toEqual([]);
    expect(splitRuns('\u200b')).toEqual([]);
  });
});
