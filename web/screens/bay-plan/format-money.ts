import { formatWhole, roundToEstimate } from '#web/format/format-number.ts';

/** An expected cost to two figures, in the fleet's own currency, which the program does not know by name. */
export const formatMoney = (cost: number): string => formatWhole(roundToEstimate(cost));
