import { describe, expect, it } from 'vitest';
import { computeVinCheck, judgeVin } from './vin.ts';

describe('judging a VIN', () => {
  it('takes small letters, spaces, hyphens and points for what they are', () => {
    expect(judgeVin(' 1m8-gdm9a.xkp 042788\n')).toEqual({
      vin: '1M8GDM9AXKP042788',
      ok: true,
      warning: null,
    });
  });

  it.each([
    ['', 'has 0 characters; a VIN has 17.'],
    ['1M8GDM9AXKP04278', 'has 16 characters; a VIN has 17.'],
    ['1M8GDM9AXKP0427888', 'has 18 characters; a VIN has 17.'],
    ['1M8GDM9AXKPO42788', 'has the letter O, which no VIN has; perhaps 0 was meant.'],
    ['IM8GDM9AXKP042788', 'has the letter I, which no VIN has; perhaps 1 was meant.'],
    ['1M8GDM9AXKP04278Q', 'has the letter Q, which no VIN has; perhaps 0 was meant.'],
    ['1M8GDM9AXKP04278#', "has '#'; a VIN has only letters and digits."],
    ['1M8GDM9AXKP04278\u{1f69a}', "has '\u{1f69a}'; a VIN has only letters and digits."],
  ])('says that %j %s', (vin, warning) => {
    expect(judgeVin(vin)).toMatchObject({ ok: false, warning });
    expect(computeVinCheck(vin)).toBeNull();
  });

  it('says of another check digit that it need not match outside of North America', () => {
    const { ok, warning } = judgeVin('1M8GDM9A2KP042788');
    expect(ok).toBe(false);
    expect(warning).toMatch(/^has 2 as its ninth character.*would be X\..*made for elsewhere/);
  });

  // Each letter alone at a place of weight 2, all else 0: 49 CFR 565.15(c), table IV (from memory).
  it.each([
    ['ABCDEFGH', [1, 2, 3, 4, 5, 6, 7, 8]],
    ['JKLMNPR', [1, 2, 3, 4, 5, 7, 9]],
    ['STUVWXYZ', [2, 3, 4, 5, 6, 7, 8, 9]],
    ['0123456789', [0, 1, 2, 3, 4, 5, 6, 7, 8, 9]],
  ])('gives %s their values', (characters, values) => {
    const sums = [...characters].map((character) => computeVinCheck(`${'0'.repeat(16)}${character}`)?.sum);
    expect(sums).toEqual(values.map((value) => value * 2));
  });
});
