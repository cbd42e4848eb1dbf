/** A rise of slip that counts as new evidence: so many rpm, or this share of what it was, whichever is more. */
const LEAST_RISE_RPM = 10;
const LEAST_RISE_SHARE = 0.2;

/** What a shop said of a vehicle when it found no fault, or when the work was declined. */
export interface CalmWord {
  /** mileage up to which the list is calm */
  untilKm: number;
  /** reference slip at closing, rpm; null where it was not known */
  slipRpm: number | null;
}

export interface CalmFacts {
  nowKm: number | null;
  levelRpm: number | null;
  limitRpm: number;
  /** a trouble code that names the clutch has come that was not there when the packet was opened */
  hasNewCode: boolean;
}

/**
 * Whether the word of a shop still keeps the inspection list calm about a vehicle.
 *
 * Calm while the odometer is below the stated mileage and nothing new speaks: slip not above what it was by
 * max(10 rpm, 20 %), the limit not crossed since, no new trouble code.
 *
 * @param facts what is known of the vehicle now
 * @param word  of the shop
 * @returns true while it does
 * Source: own rule. Edges: a level that was not known at closing, and is now, is new evidence once it reaches the limit.
 * Errors: none.
 * @example staysCalm({ nowKm: 101_000, levelRpm: 61, limitRpm: 150, hasNewCode: false }, { untilKm: 105_000, slipRpm: 58 }) // true
 */
export function staysCalm(
  { nowKm, levelRpm, limitRpm, hasNewCode }: CalmFacts,
  { untilKm, slipRpm }: CalmWord,
): boolean {
  if (hasNewCode || nowKm === null || nowKm >= untilKm) return false;
  if (levelRpm === null) return true;
  if (levelRpm >= limitRpm && (slipRpm === null || slipRpm < limitRpm)) return false;
  return slipRpm === null || levelRpm - slipRpm < Math.max(LEAST_RISE_RPM, LEAST_RISE_SHARE * slipRpm);
}
