import { describe, expect, it } from 'vitest';
import { clipBand } from './clip-band.ts';

const window = { left: 0, right: 10, low: 0, high: 100 };

describe('clipBand', () => {
  it('cuts at the right border by interpolation', () => {
    const cut = clipBand(
      [
        { x: 5, low: 10, high: 20 },
        { x: 15, low: 30, high: 60 },
      ],
      window,
    );
    expect(cut).toEqual([
      { x: 5, low: 10, high: 20 },
      { x: 10, low: 20, high: 40 },
    ]);
  });

  it('bends where an edge leaves through the top, not at the next point', () => {
    const cut = clipBand(
      [
        { x: 0, low: 0, high: 50 },
        { x: 10, low: 0, high: 150 },
      ],
      window,
    );
    expect(cut).toEqual([
      { x: 0, low: 0, high: 50 },
      { x: 5, low: 0, high: 100 },
      { x: 10, low: 0, high: 100 },
    ]);
  });

  it('is empty for a band beside the window', () => {
    expect(
      clipBand(
        [
          { x: 20, low: 1, high: 2 },
          { x: 30, low: 1, high: 2 },
        ],
        window,
      ),
    ).toEqual([]);
  });
});
