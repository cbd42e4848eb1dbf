/** Whom a failure is about: with the server, nobody gets anything; with the message, others may. */
export type FaultOf = 'server' | 'message' | 'stop';

/**
 * A message did not leave. The sentence is for the reader and the codes for the log: what the mail library says may hold
 * addresses and what the server answered, and stays out of both.
 */
export class MailFault extends Error {
  override name = 'MailFault';
  readonly of: FaultOf;
  readonly codes: { code: string | null; response: number | null };

  constructor(of: FaultOf, sentence: string, codes: MailFault['codes'] = { code: null, response: null }) {
    super(sentence);
    this.of = of;
    this.codes = codes;
  }
}

/** What became of a message that the mail library could not send. */
export function toMailFault(error: unknown): MailFault {
  const { code, responseCode, command } = (error ?? {}) as Record<string, unknown>;
  const codes = {
    code: typeof code === 'string' ? code : null,
    response: typeof responseCode === 'number' ? responseCode : null,
  };
  const [of, sentence] = tell(codes.code, command);
  return new MailFault(of, sentence, codes);
}

function tell(code: string | null, command: unknown): [FaultOf, string] {
  switch (code) {
    case 'EABORT':
      return ['stop', 'Sending was broken off.'];
    case 'EAUTH':
    case 'ENOAUTH':
      return ['server', 'The mail server did not let Slipdrift sign in.'];
    case 'ETLS':
      return ['server', 'The mail server cannot be talked to over TLS.'];
    case 'EENVELOPE':
      return command === 'MAIL FROM'
        ? ['server', 'The mail server refused the sender.']
        : ['message', 'The mail server refused your address.'];
    case 'EMESSAGE':
      return ['message', 'The mail server refused the message.'];
    case 'ECONNECTION':
    case 'EDNS':
    case 'EPROTOCOL':
    case 'ESOCKET':
    case 'ETIMEDOUT':
      return ['server', 'The mail server does not answer as it should.'];
    default:
      return ['message', 'The message could not be made.'];
  }
}
