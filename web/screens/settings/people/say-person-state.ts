import type { ListedPerson } from '#server/contract/people.ts';
import { formatMoment } from '#web/format/format-date.ts';

/** Whether the person can sign in, and if not, why. */
export function sayPersonState({ state, locked_until }: ListedPerson): string {
  switch (state) {
    case 'active':
      return 'can sign in';
    case 'invited':
      return 'invited, no password yet';
    case 'locked':
      return locked_until === null ? 'locked' : `locked until ${formatMoment(locked_until)}`;
    case 'closed':
      return 'closed';
  }
}

export const saySessions = (n: number): string =>
  n === 0 ? 'nowhere' : `${n} ${n === 1 ? 'place' : 'places'}`;
