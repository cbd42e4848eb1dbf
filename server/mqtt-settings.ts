import { z } from 'zod';

/** A broker of MQTT messages. */
export interface MqttServer {
  /** without name and password */
  url: string;
  signIn: { user: string; password: string } | null;
  /** file with a certificate that is trusted instead of the usual ones */
  caFile: string | null;
}

export interface MqttSettings {
  server: MqttServer;
  /** filter of the topics; its `+`, where it has one, is the vehicle */
  topic: string;
}

const FORM =
  'must be mqtt://host:port, mqtts://, ws:// or wss://, with user:password@ before the host where the broker asks for them';

/** The messages never hold the address: it may have a password in it. */
export const mqttUrl = z.string().transform((text, context): MqttServer => {
  const found = readServer(text);
  if (typeof found !== 'string') return found;
  context.addIssue({ code: 'custom', message: found });
  return z.NEVER;
});

function readServer(text: string): MqttServer | string {
  if (!URL.canParse(text)) return FORM;
  const url = new URL(text);
  if (!/^(mqtts?|wss?):$/.test(url.protocol) || url.hostname === '' || url.hash !== '') return FORM;
  const isWeb = url.protocol.startsWith('ws');
  if (!isWeb && url.pathname !== '' && url.pathname !== '/') return FORM;
  const [user, password] = [decode(url.username), decode(url.password)];
  if (user === null || password === null) return FORM;
  const { ca, ...others } = Object.fromEntries(url.searchParams);
  if (Object.keys(others).length > 0 || ca === '')
    return 'takes nothing after the question mark but ca=<file>';
  url.username = '';
  url.password = '';
  url.search = '';
  return { url: url.href, signIn: user === '' ? null : { user, password }, caFile: ca ?? null };
}

/** MQTT 5.0, 4.7.1: `+` fills a whole level, `#` the last. */
export const mqttTopic = z
  .string()
  .trim()
  .refine(
    (text) =>
      text !== '' &&
      Buffer.byteLength(text) <= 65_535 &&
      !/\p{Cc}/u.test(text) &&
      text
        .split('/')
        .every((level, i, levels) =>
          /[+#]/.test(level) ? level === '+' || (level === '#' && i === levels.length - 1) : true,
        ),
    { error: 'must be a topic such as slipdrift/+/readings, whose + is the vehicle' },
  )
  .refine((text) => text.split('/').filter((level) => level === '+').length <= 1, {
    error: 'must have one + at most: it is the vehicle',
  });

function decode(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}
