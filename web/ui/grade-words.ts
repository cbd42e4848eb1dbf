import type { Grade } from '#server/contract/words.ts';

export const gradeMeaning: Record<Grade, string> = {
  hold: 'do not dispatch before inspection',
  book: 'book within the horizon',
  watch: 'drifting, limit still far',
  steady: 'no drift',
  unknown: 'too little to say',
};

/** After the grade itself: not 'book book within the horizon'. */
export const sayMeaning = (grade: Grade): string =>
  gradeMeaning[grade].startsWith(`${grade} `)
    ? gradeMeaning[grade].slice(grade.length + 1)
    : gradeMeaning[grade];
