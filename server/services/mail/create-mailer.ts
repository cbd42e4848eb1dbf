import { X509Certificate } from 'node:crypto';
import { readFile } from 'node:fs/promises';
import { rootCertificates } from 'node:tls';
import { isMailAddress, type MailServer, type MailSettings } from '#server/mail-settings.ts';
import { SettingsError } from '#server/settings.ts';
import type { Mailer } from './mail.ts';
import { MailFault, toMailFault } from './mail-fault.ts';
import { toHeaderText } from './to-header-text.ts';

const ANSWER_MS = 15_000;
/** of a whole message; well below the pause after which another program takes it up */
const MESSAGE_MS = 120_000;

/** Sends mail through a server. Its certificate is verified wherever TLS is spoken, and nothing of a secret is logged. */
export async function createMailer({ server, from }: MailSettings): Promise<Mailer> {
  const ca = await readCertificate(server);
  const { createTransport } = await import('nodemailer');
  const { host, port, tls, signIn } = server;
  const transport = createTransport({
    host,
    port,
    secure: tls === 'at_once',
    requireTLS: tls === 'upgrade',
    ignoreTLS: tls === 'off',
    // Without the second, a server that forgets to offer the sign-in would be given the message all the same.
    ...(signIn === null ? {} : { auth: { user: signIn.user, pass: signIn.password }, forceAuth: true }),
    tls: { minVersion: 'TLSv1.2', ...(ca === null ? {} : { ca: [...rootCertificates, ca] }) },
    connectionTimeout: ANSWER_MS,
    greetingTimeout: ANSWER_MS,
    dnsTimeout: ANSWER_MS,
    socketTimeout: MESSAGE_MS / 2,
    disableFileAccess: true,
    disableUrlAccess: true,
  });
  return {
    domain: from.address.slice(from.address.lastIndexOf('@') + 1),
    async send({ to, subject, unsubscribe, ...mail }, signal) {
      if (!isMailAddress(to.address)) throw new MailFault('message', 'Mail cannot be sent to your address.');
      const limit = AbortSignal.timeout(MESSAGE_MS);
      try {
        await transport.sendMail({
          ...mail,
          from: { ...from },
          to: { name: toHeaderText(to.name), address: to.address },
          subject: toHeaderText(subject),
          headers: {
            // RFC 3834: no machine should answer it.
            'Auto-Submitted': 'auto-generated',
            ...(unsubscribe === null ? {} : { 'List-Unsubscribe': `<${toHeaderText(unsubscribe)}>` }),
          },
          signal: AbortSignal.any([signal, limit]),
        });
      } catch (error) {
        throw toMailFault(limit.aborted && !signal.aborted ? { code: 'ETIMEDOUT' } : error);
      }
    },
  };
}

async function readCertificate({ caFile }: MailServer): Promise<string | null> {
  if (caFile === null) return null;
  try {
    const text = await readFile(caFile, 'utf8');
    new X509Certificate(text);
    return text;
  } catch {
    throw new SettingsError(`SLIPDRIFT_SMTP_URL names ${caFile}, which is no certificate that can be read.`);
  }
}
