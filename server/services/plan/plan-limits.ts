/** A vehicle that gets no day waits for the next plan: so long after this one risk is counted. Own assumption. */
export const WAIT_DAYS = 14;
/** Assumed where no vehicle of the fleet has told how far it drives in a day. Own assumption. */
export const ASSUMED_KM_PER_DAY = 200;
