import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LaneLabel, type PlacedLabel, placeInLanes } from './place-in-lanes.ts';
import { textWidth } from './text-width.ts';

const bounds = { leftPx: 0, rightPx: 1000 };
const spanOf = (one: PlacedLabel): [number, number] => {
  const reach = textWidth(one.text, 13) + 4;
  return one.align === 'left' ? [one.xPx, one.xPx + reach] : [one.xPx - reach, one.xPx];
};

describe('placeInLanes', () => {
  it('puts a lone label in the lowest lane, at the right of its line', () => {
    expect(placeInLanes([{ id: 'now', xPx: 500, texts: ['now 371,204 km'] }], 2, bounds, 13)).toEqual([
      { id: 'now', xPx: 500, text: 'now 371,204 km', align: 'left', lane: 0 },
    ]);
  });

  it('turns a label to the left where the border is near', () => {
    const [placed] = placeInLanes([{ id: 'now', xPx: 990, texts: ['now 371,204 km'] }], 1, bounds, 13);
    expect(placed?.align).toBe('right');
  });

  it('takes a shorter wording rather than leave a label out', () => {
    const placed = placeInLanes(
      [
        { id: 'now', xPx: 100, texts: ['now 371,204 km'] },
        { id: 'life', xPx: 60, texts: ['rebuilt unit fitted, 360,000 km', 'unit'] },
      ],
      1,
      { leftPx: 0, rightPx: 220 },
      13,
    );
    expect(placed.map((one) => one.text).sort()).toEqual(['now 371,204 km', 'unit']);
  });

  it('leaves out the less important of two that stand on each other', () => {
    const texts = ['a long name that fills all there is'];
    const placed = placeInLanes(
      [
        { id: 'now', xPx: 10, texts },
        { id: 'event', xPx: 12, texts },
      ],
      1,
      { leftPx: 0, rightPx: 300 },
      13,
    );
    expect(placed.map((one) => one.id)).toEqual(['now']);
  });

  it('stays out of reserved room', () => {
    const placed = placeInLanes([{ id: 'now', xPx: 50, texts: ['now'] }], 2, bounds, 13, [
      { lane: 0, fromPx: 0, toPx: 200 },
    ]);
    expect(placed).toEqual([]);
    const beside = placeInLanes([{ id: 'now', xPx: 250, texts: ['now'] }], 2, bounds, 13, [
      { lane: 0, fromPx: 0, toPx: 200 },
    ]);
    expect(beside[0]?.lane).toBe(0);
  });

  it('never lets a label touch another or the line of another', () => {
    const label = fc.record({
      xPx: fc.integer({ min: 0, max: 1000 }),
      texts: fc.array(fc.string({ minLength: 3, maxLength: 30 }), { minLength: 1, maxLength: 3 }),
    });
    fc.assert(
      fc.property(fc.array(label, { maxLength: 7 }), fc.integer({ min: 1, max: 3 }), (drawn, lanes) => {
        const labels: LaneLabel[] = drawn.map((one, i) => ({ ...one, id: String(i) }));
        const placed = placeInLanes(labels, lanes, bounds, 13);
        for (const one of placed)
          for (const other of placed) {
            if (one === other) continue;
            const [from, to] = spanOf(one);
            const [otherFrom, otherTo] = spanOf(other);
            if (one.lane === other.lane) expect(to <= otherFrom || from >= otherTo).toBe(true);
            if (other.lane > one.lane) expect(other.xPx <= from || other.xPx >= to).toBe(true);
          }
      }),
      { seed: 11, numRuns: 300 },
    );
  });
});
