import { describe, expect, it } from 'vitest';
import { makeAtlas } from '#tests/browser/fixtures/atlas-fixture.ts';
import { parseAtlasSearch, patchAtlasSearch } from './atlas-search.ts';
import { sayAtlas as sayAtlasKept, sayBasis } from './say-atlas.ts';

const sayAtlas = (...asked: Parameters<typeof sayAtlasKept>): string =>
  sayAtlasKept(...asked).replaceAll('\u00a0', ' ');

describe('the sentence of an atlas', () => {
  it('says where the vehicle lies', () => {
    expect(sayAtlas(makeAtlas(), '204')).toBe(
      'Vehicle 204 lies above 95 % of its platform at 70 to 85 % command: 84 rpm lately, the middle of the others is 14 rpm.',
    );
    const standing = makeAtlas().standing!;
    const at = (share_below: number) =>
      sayAtlas(makeAtlas('204', { standing: { ...standing, share_below } }), '204');
    expect(at(0.1)).toContain('lies below 90 % of its platform');
    expect(at(0.5)).toContain('lies in the middle of its platform');
    expect(at(1)).toContain('lies above all others');
  });

  it('says how wide the platform spreads where no vehicle is chosen', () => {
    expect(sayAtlas(makeAtlas(null), null)).toBe(
      'At 95 to 100 % command, where most readings are, half of all slip lies between 9 and 14 rpm, and one reading in twenty above 41 rpm.',
    );
  });

  it('says what is lacking', () => {
    const nothing = { stretches: 0, vehicles: 0 };
    expect(sayAtlas(makeAtlas(null, nothing), null)).toContain('in this period could be compared');
    expect(sayAtlas(makeAtlas(null, { ...nothing, to: null, from: null }), null)).toContain('have come yet');
    expect(sayAtlas(makeAtlas('204', { standing: null }), '204')).toContain('no others to compare with');
  });

  it('says what stands behind it', () => {
    expect(sayBasis(makeAtlas())).toMatch(/^From 8,412 stretches of 69 vehicles\./);
  });
});

describe('the address of an atlas', () => {
  it('keeps what is sound and lets the rest fall away', () => {
    expect(parseAtlasSearch({ days: '731', vehicle: '00417' })).toEqual({ days: 731, vehicle: '00417' });
    expect(parseAtlasSearch({ days: '365', vehicle: '' })).toEqual({});
    expect(parseAtlasSearch({ days: '12', vehicle: 'x'.repeat(65) })).toEqual({});
  });
  it('changes one thing and leaves the other', () => {
    expect(patchAtlasSearch({ days: 30, vehicle: 'A' }, { vehicle: undefined })).toEqual({ days: 30 });
  });
});
