import type { AccessKey } from '#server/contract/keys.ts';
import type { KeyRight } from '#server/contract/words.ts';
import { formatDate } from '#web/format/format-date.ts';

export const rightWords: Record<KeyRight, string> = {
  deliver: 'delivers readings and sees nothing: for a gateway',
  read: 'reads list, vehicles and platforms: for a report or another program',
  write: 'reads, delivers and sets up vehicles, lives and platforms',
};

export function sayKeyState({ state, revoked_at, expires_at }: AccessKey): string {
  switch (state) {
    case 'active':
      return 'works';
    case 'expired':
      return `ran out ${formatDate(expires_at)}`;
    case 'revoked':
      return `revoked ${formatDate(revoked_at)}`;
  }
}

export function sayExpiry({ expires_at }: AccessKey): string {
  return expires_at === null ? 'it is revoked' : formatDate(expires_at);
}
