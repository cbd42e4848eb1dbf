import { once } from 'node:events';
import type { AddressInfo } from 'node:net';
import { buffer } from 'node:stream/consumers';
import PostalMime, { type Email } from 'postal-mime';
import { SMTPServer } from 'smtp-server';

export interface TakenMessage {
  /** of the envelope */
  from: string;
  to: string[];
  /** who signed in */
  user: string | null;
  /** whether it came over TLS */
  secure: boolean;
  raw: string;
  email: Email;
}

interface Options {
  port?: number;
  /** with it TLS is spoken: from the first byte, or once asked for */
  certificate?: { key: string; cert: string };
  tls?: 'at_once' | 'upgrade' | 'off';
  signIn?: { user: string; password: string };
  refuses?: (address: string) => boolean;
  /** waits before it says that it has taken a message */
  beforeTaken?: () => Promise<void>;
}

export interface MailServerUnderTest {
  port: number;
  messages: TakenMessage[];
  /** connections so far */
  connections(): number;
  stop(): Promise<void>;
}

/** A real SMTP server on this machine that keeps what it takes. */
export async function startMailServer(options: Options = {}): Promise<MailServerUnderTest> {
  const { port = 0, certificate, tls = 'off', signIn, refuses, beforeTaken } = options;
  const messages: TakenMessage[] = [];
  let connections = 0;
  const server = new SMTPServer({
    ...certificate,
    secure: tls === 'at_once',
    disabledCommands: [...(tls === 'upgrade' ? [] : ['STARTTLS']), ...(signIn === undefined ? ['AUTH'] : [])],
    allowInsecureAuth: tls === 'off',
    authOptional: signIn === undefined,
    closeTimeout: 100,
    onConnect(_session, callback) {
      connections += 1;
      callback();
    },
    onAuth({ username, password }, _session, callback) {
      const isRight = username === signIn?.user && password === signIn?.password;
      callback(isRight ? null : new Error(`no ${username} with ${password}`), { user: username });
    },
    onRcptTo({ address }, _session, callback) {
      if (refuses?.(address) !== true) return callback();
      callback(Object.assign(new Error(`no mailbox ${address}`), { responseCode: 550 }));
    },
    onData(stream, { envelope, user, secure }, callback) {
      take().then(() => callback(), callback);
      async function take() {
        const raw = (await buffer(stream)).toString('utf8');
        await beforeTaken?.();
        messages.push({
          from: envelope.mailFrom === false ? '' : envelope.mailFrom.address,
          to: envelope.rcptTo.map(({ address }) => address),
          user: typeof user === 'string' ? user : null,
          secure,
          raw,
          email: await PostalMime.parse(raw),
        });
      }
    },
  });
  server.on('error', () => {});
  server.listen(port, '127.0.0.1');
  await once(server.server, 'listening');
  return {
    port: (server.server.address() as AddressInfo).port,
    messages,
    connections: () => connections,
    stop: () => new Promise((settle) => server.close(() => settle())),
  };
}
