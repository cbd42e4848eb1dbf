/** A vehicle that gets no day waits for the next plan: so long after this one risk is counted. Own assumption. */
export const WAIT_DAYS = 14;
/** Who was inspected within so many days is not proposed again unless graded worse since. Own choice. */
export const INSPECTED_DAYS = 14;
/** Further ahead nothing can be booked. */
export const LAST_DAY_AHEAD = 366;
/** Assumed where no vehicle of the fleet has told how far it drives in a day. Own assumption. */
export const ASSUMED_KM_PER_DAY = 200;
