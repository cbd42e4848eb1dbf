/**
 * An inspection speaks for its vehicle for so long, unless it was graded worse since: no day is proposed, and a hold
 * counts as seen to. Own choice.
 */
export const INSPECTED_DAYS = 14;
