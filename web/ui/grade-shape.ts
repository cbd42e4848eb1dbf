import type { Grade } from '#server/contract/words.ts';

interface Block {
  x: number;
  y: number;
  width: number;
  height: number;
}

/**
 * A rail in small, 20 by 14: the bar at the left is the limit, the block how near the vehicle is to it.
 * Five different shapes, so that the grade is told without its tone; unknown is a dotted rail.
 */
export const gradeBlocks: Record<Grade, Block | null> = {
  hold: { x: 1, y: 1, width: 11, height: 12 },
  book: { x: 6, y: 2.5, width: 6, height: 9 },
  watch: { x: 13, y: 4, width: 5, height: 6 },
  steady: null,
  unknown: null,
};
