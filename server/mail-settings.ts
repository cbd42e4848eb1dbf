import { z } from 'zod';

/** A mail server that takes what is to be sent. */
export interface MailServer {
  host: string;
  port: number;
  /** `at_once`: from the first byte; `upgrade`: by STARTTLS, and nothing is sent where that fails */
  tls: 'at_once' | 'upgrade' | 'off';
  signIn: { user: string; password: string } | null;
  /** file with a certificate that is trusted beside the usual ones */
  caFile: string | null;
}

export interface MailAddress {
  name: string;
  address: string;
}

export interface MailSettings {
  server: MailServer;
  from: MailAddress;
}

const FORM =
  'must be smtps://host:port or smtp://host:port, with user:password@ before the host where the server asks for them';

/** The messages never hold the address: it may have a password in it. */
export const smtpUrl = z.string().transform((text, context): MailServer => {
  const found = readServer(text);
  if (typeof found !== 'string') return found;
  context.addIssue({ code: 'custom', message: found });
  return z.NEVER;
});

function readServer(text: string): MailServer | string {
  if (!URL.canParse(text)) return FORM;
  const url = new URL(text);
  if (!/^smtps?:$/.test(url.protocol) || !isHost(url.hostname) || url.hash !== '') return FORM;
  if (url.pathname !== '' && url.pathname !== '/') return FORM;
  const [user, password] = [decode(url.username), decode(url.password)];
  if (user === null || password === null) return FORM;
  if ((user === '') !== (password === '')) return 'must name both user and password, or neither';
  const { tls, ca, ...others } = Object.fromEntries(url.searchParams);
  if (Object.keys(others).length > 0 || (tls !== undefined && tls !== 'off') || ca === '')
    return 'takes nothing after the question mark but tls=off and ca=<file>';
  const host = url.hostname.replace(/^\[|\]$/g, '');
  const atOnce = url.protocol === 'smtps:';
  const plain = !atOnce && (tls === 'off' || isLoopback(host));
  if (tls === 'off' && atOnce) return 'is smtps:// and says tls=off: leave one of them away';
  if (tls === 'off' && user !== '' && !isLoopback(host))
    return 'must not send a password without TLS: leave tls=off away';
  return {
    host,
    port: url.port === '' ? (atOnce ? 465 : 587) : Number(url.port),
    tls: atOnce ? 'at_once' : plain ? 'off' : 'upgrade',
    signIn: user === '' ? null : { user, password },
    caFile: ca ?? null,
  };
}

export const mailFrom = z.string().transform((text, context): MailAddress => {
  const named = /^\s*"?([^"<>]*?)"?\s*<([^<>]+)>\s*$/.exec(text);
  const [name = '', address = ''] = named === null ? ['', text.trim()] : named.slice(1);
  if (isMailAddress(address) && !/\p{Cc}/u.test(name)) return { name: name.trim(), address };
  context.addIssue({
    code: 'custom',
    message: 'must be an address that mail is sent from, such as Slipdrift <slipdrift@fleet.example>',
  });
  return z.NEVER;
});

/** One bare address, in a form that no header and no command of SMTP can be broken with. */
export const isMailAddress = (text: string): boolean =>
  /^[^\s@<>()[\]\\,;:"\p{Cc}]+@[^\s@<>()[\]\\,;:"\p{Cc}]+$/u.test(text);

const isHost = (text: string): boolean => /^(\[[\da-f:.]+\]|[a-z\d]([a-z\d.-]*[a-z\d])?)$/i.test(text);

const isLoopback = (host: string): boolean => /^(localhost|::1|127(\.\d{1,3}){3})$/i.test(host);

function decode(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}
