import type { ToldGrade, Webhook, WebhookPost } from '#server/contract/webhooks.ts';
import { formatDate, formatMoment } from '#web/format/format-date.ts';
import { formatWhole } from '#web/format/format-number.ts';

export const gradeHints: Record<ToldGrade, string> = {
  hold: 'do not dispatch before inspection',
  book: 'book within the planning horizon',
  watch: 'drifting, limit far',
};

export function sayWebhookState({ state, ended_at }: Webhook): string {
  switch (state) {
    case 'active':
      return 'works';
    case 'paused':
      return 'paused: events wait';
    case 'ended':
      return `ended ${formatDate(ended_at)}`;
  }
}

/** How the last try went, in words. */
export function sayLast({ last_at, last_fault }: Webhook): string {
  if (last_at === null) return 'nothing was sent yet';
  return last_fault === null ? 'confirmed' : last_fault;
}

export function sayCounts({ given, waiting, given_up: givenUp }: Webhook): string {
  if (given + waiting + givenUp === 0) return 'none yet';
  const parts = [
    `${formatWhole(given)} confirmed`,
    ...(waiting > 0 ? [`${formatWhole(waiting)} waiting`] : []),
    ...(givenUp > 0 ? [`${formatWhole(givenUp)} given up`] : []),
  ];
  return parts.join(', ');
}

export function sayTries({ state, tries, next_at }: WebhookPost): string {
  const times = tries === 1 ? 'once' : tries === 2 ? 'twice' : `${formatWhole(tries)} times`;
  if (state === 'given') return tries === 1 ? 'confirmed' : `confirmed, tried ${times}`;
  if (state === 'given_up') return tries === 0 ? 'not sent' : `given up, tried ${times}`;
  if (tries === 0) return 'waits to be sent';
  return next_at === null ? `tried ${times}` : `tried ${times}, again at ${formatMoment(next_at)}`;
}

export function sayEvent({ event: { type, from, to } }: WebhookPost): string {
  return type === 'trial' ? 'trial' : `${from ?? 'no grade'} to ${to}`;
}
