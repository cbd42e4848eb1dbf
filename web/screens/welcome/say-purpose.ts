import type { OneTimeAddress } from '#server/contract/people.ts';
import { formatMoment } from '#web/format/format-date.ts';

/** What a one-time address is for, and until when. */
export function sayPurpose({ purpose, name, email, expires_at }: OneTimeAddress): {
  title: string;
  words: string;
} {
  const until = `It works once, until ${formatMoment(expires_at)}.`;
  const who = email ?? name ?? 'your account';
  switch (purpose) {
    case 'first_admin':
      return {
        title: 'The first admin',
        words: `This address makes the first account of this Slipdrift: an admin, who then invites everybody else. ${until}`,
      };
    case 'invitation':
      return {
        title: name === null ? 'Welcome' : `Welcome, ${name}`,
        words: `You are invited to Slipdrift as ${who}. Choose a password, and you are in. ${until}`,
      };
    case 'reset':
      return {
        title: 'A new password',
        words: `This address sets a new password for ${who}. Whoever is signed in with the old one is signed out. ${until}`,
      };
  }
}
