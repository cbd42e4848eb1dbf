import type { MailAddress } from '#server/mail-settings.ts';

/** One message to one person. */
export interface Mail {
  to: MailAddress;
  subject: string;
  text: string;
  html: string;
  /** the same for the same content: many servers then show a message that came twice once */
  messageId: string;
  date: Date;
  /** page at which the reader ends it; null where no address is known */
  unsubscribe: string | null;
}

export interface Mailer {
  /** of the sender, for the message id */
  domain: string;
  /** Settles once the server has taken the message; throws a `MailFault`. */
  send(mail: Mail, signal: AbortSignal): Promise<void>;
}
