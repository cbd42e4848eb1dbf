import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { spellCode } from './spell-code.ts';

const codeOf = (text: string) => spellCode(text)?.code ?? null;

describe('a code of SAE J2012', () => {
  it.each(['P0741', 'p0741', ' P0741 ', 'p0741\n'])('is the same however it is written: %j', (text) => {
    expect(spellCode(text)).toEqual({ code: 'P0741', family: null });
  });

  it('may be hexadecimal, and belong to body, chassis or network', () => {
    expect(['u0a1f', 'B1234', 'c0035', 'P3FFF'].map(codeOf)).toEqual(['U0A1F', 'B1234', 'C0035', 'P3FFF']);
  });

  it('keeps its failure type, and belongs to the code without', () => {
    expect(spellCode('p0741-1a')).toEqual({ code: 'P0741-1A', family: 'P0741' });
    expect(spellCode('P0741:00')).toEqual({ code: 'P0741-00', family: 'P0741' });
  });
});

// SAE J1939-73 gives an SPN 19 bits and an FMI 5.
describe('a code of SAE J1939', () => {
  it.each([
    'SPN 573 FMI 7',
    'SPN573/FMI7',
    'SPN573FMI07',
    'spn:573 fmi:7',
    'spn=573,fmi=7',
    'SPN 573-7',
    'SPN 573 / 7',
    'SPN_573_FMI_7',
    'FMI 7 SPN 573',
    '573-7',
    '573/7',
    '573 - 07',
  ])('is the same however it is written: %j', (text) => {
    expect(spellCode(text)).toEqual({ code: 'SPN 573 FMI 7', family: 'SPN 573' });
  });

  it('may leave its FMI open', () => {
    expect(['spn 573', 'SPN:573', 'SPN00573'].map(spellCode)).toEqual(
      Array.from({ length: 3 }, () => ({ code: 'SPN 573', family: null })),
    );
  });

  it('has an SPN of 1 to 524287 and an FMI of 0 to 31', () => {
    expect(codeOf('SPN 524287 FMI 31')).toBe('SPN 524287 FMI 31');
    expect(codeOf('524287-0')).toBe('SPN 524287 FMI 0');
    expect(['SPN 524288', 'SPN 573 FMI 32', '573-32', 'SPN 0 FMI 0', '0-0'].map(codeOf)).toEqual(
      Array.from({ length: 5 }, () => null),
    );
  });
});

it.each([
  '',
  '0741',
  '573',
  '573 7',
  '573.7',
  '573:7',
  '0741-1',
  'PO741',
  'P074',
  'P07410',
  'P07411A',
  'P4741',
  'SPN 573 7',
  'SPN 573 FMI',
  'FMI 7',
  'SPN 573 FMI 7 FMI 8',
  '７４１-1',
  'ſpn 573',
  'null',
])('does not guess what %j stands for', (text) => {
  expect(spellCode(text)).toBe(null);
});

describe('whatever is sent', () => {
  const pieces = fc.constantFrom(
    'P',
    'p',
    '0',
    '7',
    '41',
    'SPN',
    'fmi',
    ' ',
    '-',
    '/',
    ':',
    '573',
    'A',
    '\u0000',
  );
  const texts = fc.oneof(
    fc.string(),
    fc.string({ unit: 'binary' }),
    fc.array(pieces).map((all) => all.join('')),
  );

  it('is spelled the same way once it is spelled, and so is its family', () => {
    fc.assert(
      fc.property(texts, (text) => {
        const spelled = spellCode(text);
        if (spelled === null) return;
        expect(spellCode(spelled.code)).toEqual(spelled);
        if (spelled.family !== null)
          expect(spellCode(spelled.family)).toEqual({ code: spelled.family, family: null });
      }),
      { seed: 4, numRuns: 20_000 },
    );
  });

  it('keeps the numbers of SPN and FMI, by any signs between them', () => {
    const sign = fc.constantFrom('', ' ', ':', ' = ', '-', '_', '#');
    const between = fc.constantFrom('', ' ', '/', ', ', ';', '-', ' | ');
    fc.assert(
      fc.property(
        fc.record({ spn: fc.integer({ min: 1, max: 524_287 }), fmi: fc.integer({ min: 0, max: 31 }) }),
        sign,
        between,
        fc.boolean(),
        ({ spn, fmi }, a, b, isLow) => {
          const text = `SPN${a}${spn}${b}FMI${a}${fmi}`;
          expect(codeOf(isLow ? text.toLowerCase() : text)).toBe(`SPN ${spn} FMI ${fmi}`);
          expect(codeOf(`${spn}-${fmi}`)).toBe(`SPN ${spn} FMI ${fmi}`);
        },
      ),
      { seed: 4, numRuns: 2_000 },
    );
  });
});
