import { expect, it } from 'vitest';
import { makeSummary } from '#tests/browser/fixtures/movement-fixture.ts';
import { scaleStrips, shapeStrip } from './strip-geometry.ts';

const still = makeSummary({
  weeks: [
    ['2026-01-05', 0],
    ['2026-01-12', 1],
  ],
});
const stepped = makeSummary({
  weeks: [
    ['2026-01-05', 0],
    ['2026-01-19', 30],
  ],
});

it('has one scale for all platforms, with room for the largest', () => {
  expect(scaleStrips([still, stepped])).toEqual({
    fromMs: Date.parse('2026-01-05'),
    toMs: Date.parse('2026-01-26'),
    lowRpm: 0,
    highRpm: 30,
  });
});

it('keeps what moves little flat', () => {
  expect(scaleStrips([still])).toMatchObject({ lowRpm: -9.5, highRpm: 10.5 });
});

it('has none where nothing was learned', () => {
  expect(scaleStrips([makeSummary({ weeks: [] })])).toBe(null);
});

it('draws the weeks at their middle and a line at each step', () => {
  const scale = { fromMs: Date.parse('2026-01-05'), toMs: Date.parse('2026-01-26'), lowRpm: 0, highRpm: 30 };
  const event = { at: '2026-01-15T12:00:00Z', size_rpm: 30, vehicles: 9, sentence: '' };
  expect(shapeStrip({ weeks: stepped.weeks, events: [event] }, scale, 210, 30)).toEqual({
    path: 'M35 30L175 0',
    zeroY: 30,
    steps: [{ id: event.at, x: 105 }],
  });
});
