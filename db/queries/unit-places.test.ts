import fc from 'fast-check';
import { expect, it } from 'vitest';
import { UnitPlaces } from './unit-places.ts';

it('gives each unit one place, in the order in which they came, as text and as bytes', () => {
  const unit = fc.oneof(
    fc.string({ minLength: 1, maxLength: 8 }).filter((text) => /^[ -~]+$/.test(text)),
    fc.integer({ min: 0, max: 200 }).map((n) => `B-${n}`),
  );
  const met = fc.array(fc.record({ unit, asBytes: fc.boolean() }), { maxLength: 400 });
  const places = new UnitPlaces();
  fc.assert(
    fc.property(met, (list) => {
      places.clear();
      const expected = [...new Set(list.map((one) => one.unit))];
      for (const { unit: text, asBytes } of list) {
        const bytes = Buffer.from(`"${text}"`);
        const place = asBytes ? places.ofBytes(bytes, 1, bytes.length - 1) : places.of(text);
        expect(place).toBe(expected.indexOf(text));
      }
      expect(places.units).toEqual(expected);
    }),
    { seed: 9, numRuns: 200 },
  );
});
