import { describe, expect, it } from 'vitest';
import { type LifeRow, orderLives } from './life-rows.ts';

const life = (
  fittedKm: number,
  removedKm: number | null = null,
  ended: LifeRow['ended'] = null,
): LifeRow => ({
  vehicle: 1,
  fittedKm,
  fittedAt: null,
  source: 'new',
  removedKm,
  removedAt: null,
  ended,
  mode: null,
  supplier: null,
  runKm: null,
});
const spans = (lives: LifeRow[]) => lives.map(({ fittedKm, removedKm }) => [fittedKm, removedKm]);

describe('the lives of a vehicle', () => {
  it('end where the next begins, in whatever order they come', () => {
    const first = orderLives([life(3000), life(1000)]);
    expect(spans(first.lives)).toEqual([
      [1000, 3000],
      [3000, null],
    ]);
    const second = orderLives([...first.lives, life(2000)]);
    expect(spans(second.lives)).toEqual([
      [1000, 2000],
      [2000, 3000],
      [3000, null],
    ]);
    expect(second.overlaps).toEqual([]);
  });

  it('may leave a gap, and meet at one mileage', () => {
    const { lives, overlaps } = orderLives([life(0, 900, 'failed'), life(1000, 2000, 'retired'), life(2000)]);
    expect(spans(lives)[0]).toEqual([0, 900]);
    expect(overlaps).toEqual([]);
  });

  it('overlap where one has an end of its own beyond the next fitting', () => {
    expect(orderLives([life(0, 2000, 'failed'), life(1500), life(2000)]).overlaps).toHaveLength(1);
    expect(orderLives([life(0, 2000), life(1500)]).overlaps).toHaveLength(1);
  });
});
