/** The one way in which the engine declines: what is missing for an answer, as a value and not as an error. */
export interface Declined {
  declined: {
    /** why there is no answer, as a short phrase */
    reason: string;
    /** what would be enough, with its unit */
    needed: string;
    /** what there was, with its unit */
    got: string;
  };
}

/**
 * Decline an answer.
 *
 * @param reason why there is none, as a short phrase
 * @param needed what would be enough
 * @param got    what there was
 * @returns a {@link Declined}
 * Source: own rule. Edges, errors: none.
 * @example decline('too few points', 'at least 3', '2').declined.reason // 'too few points'
 */
export function decline(reason: string, needed: string, got: string): Declined {
  return { declined: { reason, needed, got } };
}

/**
 * Tell a declined answer from one that was had.
 *
 * @param answer of an engine function
 * @returns true where it declined
 * Source: own rule. Edges: answers that are no objects were had. Errors: none.
 * @example isDeclined(decline('too few points', 'at least 3', '2')) // true
 */
export function isDeclined(answer: unknown): answer is Declined {
  return typeof answer === 'object' && answer !== null && 'declined' in answer;
}
