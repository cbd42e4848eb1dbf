import type { Question } from './diagnosis-model.ts';

interface Band {
  expectedA: number;
  lowA: number;
  highA: number;
}

/** Blade fuses of the middle size end here (ISO 8820-3, from memory). */
const LARGEST_FUSE_A = 40;
/** A figure so many times the expected change may be in milliamps. */
const MILLIAMPS_FROM = 5;
/** Nothing behind a fuse carries so much, so that it can only be milliamps. Own choice. */
const SURELY_MILLI = 200;
/** A change the wrong way of at least this share of the expected is no scatter. */
const SWAPPED_FROM = 0.1;

/**
 * Questions about currents that may be slips of the pen.
 *
 * In this order, the first that applies: a figure below 0; figures that fit the expected change once one or both are
 * divided by 1000; 200 and more, which can only be milliamps; more than any blade fuse carries; on below off by 10 % of the expected change or more.
 *
 * @param input.offA current commanded off, A
 * @param input.onA  current commanded on, A
 * @param band       expected change and its bounds, A
 * @returns no question, or one with what the figures would be
 * Source: own rule; blade fuses end at 40 A, ISO 8820-3, from memory. Edges: figures that fit as they are are asked
 * about only where they are more than a fuse carries. Errors: none.
 * @example askAboutCurrent({ offA: 20, onA: 1040 }, { expectedA: 1, lowA: 0.75, highA: 1.25 })[0].kind // 'milliamps'
 */
export function askAboutCurrent({ offA, onA }: { offA: number; onA: number }, band: Band): Question[] {
  if (offA < 0 || onA < 0)
    return [
      {
        kind: 'negative_current',
        field: onA < 0 ? 'onA' : 'offA',
        suggestion: { offA: Math.abs(offA), onA: Math.abs(onA) },
      },
    ];
  const fits = (off: number, on: number) => on - off >= band.lowA && on - off <= band.highA;
  if (!fits(offA, onA)) {
    const isMilli = (value: number) => value >= MILLIAMPS_FROM * band.expectedA;
    const tries: [number, number, boolean][] = [
      [offA, onA / 1000, isMilli(onA)],
      [offA / 1000, onA / 1000, isMilli(onA)],
      [offA / 1000, onA, isMilli(offA)],
    ];
    const found = tries.find(([off, on, may]) => may && fits(off, on));
    if (found !== undefined)
      return [
        {
          kind: 'milliamps',
          field: isMilli(onA) ? 'onA' : 'offA',
          suggestion: { offA: found[0], onA: found[1] },
        },
      ];
  }
  if (Math.max(offA, onA) >= SURELY_MILLI) {
    const asAmpere = (value: number) => (value >= SURELY_MILLI ? value / 1000 : value);
    return [
      {
        kind: 'milliamps',
        field: onA >= SURELY_MILLI ? 'onA' : 'offA',
        suggestion: { offA: asAmpere(offA), onA: asAmpere(onA) },
      },
    ];
  }
  if (Math.max(offA, onA) > LARGEST_FUSE_A)
    return [{ kind: 'clamp_range', field: onA >= offA ? 'onA' : 'offA', suggestion: null }];
  if (offA - onA >= SWAPPED_FROM * band.expectedA)
    return [{ kind: 'swapped', field: 'onA', suggestion: { offA: onA, onA: offA } }];
  return [];
}
