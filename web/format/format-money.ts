import { formatWhole, noFigure, roundToEstimate } from './format-number.ts';

/** An expected cost to two figures, in the fleet's own currency, which the program does not know by name. */
export const formatMoney = (cost: number | null): string =>
  cost === null ? noFigure : formatWhole(roundToEstimate(cost));

const exact = new Intl.NumberFormat('en-GB', { maximumFractionDigits: 2 });

/** A price that somebody wrote down, as it was written. */
export const formatPrice = (price: number | null): string =>
  price === null ? noFigure : exact.format(price);
