/**
 * A vehicle that gets no day waits for one of the next plan. Risk is counted to the end of that, were it as long as this
 * one, but no further than this. Were it counted to the end of this one alone, nothing would be worth inspecting on its
 * last days. Own assumption.
 */
export const MOST_WAIT_DAYS = 14;
/** Assumed where no vehicle of the fleet has told how far it drives in a day. Own assumption. */
export const ASSUMED_KM_PER_DAY = 200;
