import { expect, it } from 'vitest';
import { unknownPlatform } from '#server/engine/platform/platform-context.ts';
import { makePoint, makeStretch } from '#tests/helpers/make-stretch.ts';
import type { AssessmentInput } from './assessment-input.ts';
import { listMissing } from './list-missing.ts';

const nothing: AssessmentInput = {
  stretches: [],
  life: { number: 1, fittedKm: null },
  nowKm: null,
  nowMs: 0,
  lastReadingMs: null,
  codes: [],
  hasPlatform: true,
};
const points = Array.from({ length: 12 }, (_, i) => makePoint(i, 20));

it('runs as its note says', () => {
  expect(listMissing({ ...nothing, stretches: [] }, 150, unknownPlatform, [], null)[0]?.kind).toBe(
    'no_usable',
  );
});

it('says a short start where the rise began within the first four stretches', () => {
  const input = { ...nothing, stretches: points.map((_, i) => makeStretch(i, 20)) };
  const kinds = (onsetKm: number | null) =>
    listMissing(input, 150, { ...unknownPlatform, vehicles: 50 }, points, onsetKm).map(({ kind }) => kind);
  expect(kinds(101_751)).toEqual([]);
  expect(kinds(101_750)).toEqual(['short_start']);
  expect(kinds(null)).toEqual([]);
});
