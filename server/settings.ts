import { availableParallelism } from 'node:os';
import { resolve } from 'node:path';
import { z } from 'zod';
import { type MailSettings, mailFrom, smtpUrl } from './mail-settings.ts';
import { type MqttSettings, mqttTopic, mqttUrl } from './mqtt-settings.ts';

/** An empty variable counts as none, as in `PORT= slipdrift serve`. */
const optional = <T extends z.ZodType>(schema: T) =>
  z.preprocess((value) => (value === '' ? undefined : value), schema);

const wholeNumber = (low: number, high: number) =>
  z
    .string()
    .regex(/^\d+$/, { error: `must be a whole number from ${low} to ${high}` })
    .transform(Number)
    .refine((n) => n >= low && n <= high, { error: `must be a whole number from ${low} to ${high}` });

const variables = z.object({
  DATABASE_URL: optional(
    z
      .string()
      .regex(/^postgres(ql)?:\/\/./, { error: 'must begin with postgres://' })
      .optional(),
  ),
  PORT: optional(wholeNumber(0, 65_535).default(4280)),
  HOST: optional(z.string().trim().min(1).default('127.0.0.1')),
  SLIPDRIFT_DATA: optional(z.string().default('./data')),
  SLIPDRIFT_API_KEY: optional(
    z
      .string()
      .regex(/^[\x21-\x7e]+$/, { error: 'must be printable characters without spaces' })
      .optional(),
  ),
  SLIPDRIFT_PUBLIC_URL: optional(
    z
      .string()
      .refine((text) => URL.canParse(text) && isWebAddress(new URL(text)), {
        error: 'must be the https:// address that people use, without a path (http:// for this machine only)',
      })
      .transform((text) => new URL(text).origin)
      .optional(),
  ),
  SLIPDRIFT_PROXIES: optional(wholeNumber(0, 10).default(0)),
  SLIPDRIFT_OIDC_ISSUER: optional(
    z
      .string()
      .refine((text) => URL.canParse(text) && isSafeAddress(new URL(text)), {
        error: 'must be an https:// address',
      })
      .optional(),
  ),
  SLIPDRIFT_OIDC_CLIENT_ID: optional(z.string().optional()),
  SLIPDRIFT_OIDC_CLIENT_SECRET: optional(z.string().optional()),
  SLIPDRIFT_OIDC_NAME: optional(z.string().trim().max(60).default('the company account')),
  SLIPDRIFT_SMTP_URL: optional(smtpUrl.optional()),
  SLIPDRIFT_MAIL_FROM: optional(mailFrom.optional()),
  SLIPDRIFT_MQTT_URL: optional(mqttUrl.optional()),
  SLIPDRIFT_MQTT_TOPIC: optional(mqttTopic.optional()),
  SLIPDRIFT_MQTT_USER: optional(z.string().optional()),
  SLIPDRIFT_MQTT_PASSWORD: optional(z.string().optional()),
  SLIPDRIFT_WATCH_FOLDER: optional(z.string().optional()),
  SLIPDRIFT_WORK: optional(
    z.enum(['here', 'elsewhere'], { error: 'must be here or elsewhere' }).default('here'),
  ),
  SLIPDRIFT_WORKERS: optional(wholeNumber(1, 64).optional()),
  SLIPDRIFT_KEEP_READINGS_MONTHS: optional(wholeNumber(0, 1200).default(36)),
  SLIPDRIFT_KEEP_RECEIPTS_MONTHS: optional(wholeNumber(0, 1200).default(0)),
  SLIPDRIFT_MAX_BODY_MIB: optional(wholeNumber(1, 65_536).default(256)),
  SLIPDRIFT_BODY_IDLE_S: optional(wholeNumber(1, 3600).default(60)),
  SLIPDRIFT_NOTEBOOK_PORT: optional(wholeNumber(1024, 65_535).optional()),
  SLIPDRIFT_LOG_LEVEL: optional(
    z
      .enum(['debug', 'info', 'warn', 'error', 'silent'], {
        error: 'must be one of debug, info, warn, error, silent',
      })
      .default('info'),
  ),
});

/** Sign-in through the company's OpenID Connect provider. */
export interface CompanySignIn {
  /** as it stands in the provider's discovery document */
  issuer: string;
  clientId: string;
  clientSecret: string;
  /** what people call it */
  name: string;
}

export interface Settings {
  /** null: start a PostgreSQL of our own on `dataFolder` */
  databaseUrl: string | null;
  dataFolder: string;
  host: string;
  port: number;
  apiKey: string | null;
  /** origin that people use; null: this machine only */
  publicUrl: string | null;
  /** proxies of our own that add to X-Forwarded-For */
  proxies: number;
  company: CompanySignIn | null;
  /** null: no mail is sent */
  mail: MailSettings | null;
  /** null: no broker is read from */
  mqtt: MqttSettings | null;
  /** whose files are taken in; null for none */
  watchFolder: string | null;
  /** elsewhere: other processes assess and do what else is due */
  work: 'here' | 'elsewhere';
  /** threads that assess */
  workers: number;
  /** 0 keeps readings for ever */
  keepReadingsMonths: number;
  /** 0 keeps receipts and settled refused lines for ever */
  keepReceiptsMonths: number;
  maxBodyBytes: number;
  /** for how long nothing of a delivery may come */
  bodyIdleMs: number;
  /** port of this machine on which our own PostgreSQL answers notebooks; null for none */
  notebookPort: number | null;
  logLevel: string;
}

/** A setting is wrong; the message is the one sentence that names it. */
export class SettingsError extends Error {
  override name = 'SettingsError';
}

export function readSettings(environment: Record<string, string | undefined>): Settings {
  const parsed = variables.safeParse(environment);
  if (!parsed.success) {
    const [issue] = parsed.error.issues;
    throw new SettingsError(`${issue?.path.join('.')} ${issue?.message}.`);
  }
  const found = parsed.data;
  const publicUrl = found.SLIPDRIFT_PUBLIC_URL ?? null;
  if (publicUrl === null && found.SLIPDRIFT_API_KEY === undefined && !isLoopback(found.HOST))
    throw new SettingsError(
      `HOST is ${found.HOST}, which others can reach, and neither SLIPDRIFT_PUBLIC_URL nor SLIPDRIFT_API_KEY is set: set the https:// address that people use, or leave HOST at 127.0.0.1.`,
    );
  return {
    databaseUrl: found.DATABASE_URL ?? null,
    dataFolder: resolve(found.SLIPDRIFT_DATA),
    host: found.HOST,
    port: found.PORT,
    apiKey: found.SLIPDRIFT_API_KEY ?? null,
    publicUrl,
    proxies: found.SLIPDRIFT_PROXIES,
    company: readCompany(found, publicUrl),
    mail: readMail(found),
    mqtt: readMqtt(found),
    watchFolder: found.SLIPDRIFT_WATCH_FOLDER === undefined ? null : resolve(found.SLIPDRIFT_WATCH_FOLDER),
    work: found.SLIPDRIFT_WORK,
    workers: found.SLIPDRIFT_WORKERS ?? usualWorkers(),
    keepReadingsMonths: found.SLIPDRIFT_KEEP_READINGS_MONTHS,
    keepReceiptsMonths: found.SLIPDRIFT_KEEP_RECEIPTS_MONTHS,
    maxBodyBytes: found.SLIPDRIFT_MAX_BODY_MIB * 1024 * 1024,
    bodyIdleMs: found.SLIPDRIFT_BODY_IDLE_S * 1000,
    notebookPort: found.SLIPDRIFT_NOTEBOOK_PORT ?? null,
    logLevel: found.SLIPDRIFT_LOG_LEVEL,
  };
}

/** Half of the cores: the others are for PostgreSQL and for whoever asks. With more than four of them storage is what limits. */
const usualWorkers = (): number => Math.min(4, Math.max(1, Math.floor(availableParallelism() / 2)));

function readCompany(found: z.output<typeof variables>, publicUrl: string | null): CompanySignIn | null {
  const {
    SLIPDRIFT_OIDC_ISSUER: issuer,
    SLIPDRIFT_OIDC_CLIENT_ID: clientId,
    SLIPDRIFT_OIDC_CLIENT_SECRET: clientSecret,
  } = found;
  if (issuer === undefined && clientId === undefined && clientSecret === undefined) return null;
  if (issuer === undefined || clientId === undefined || clientSecret === undefined)
    throw new SettingsError(
      'SLIPDRIFT_OIDC_ISSUER, SLIPDRIFT_OIDC_CLIENT_ID and SLIPDRIFT_OIDC_CLIENT_SECRET belong together: set all three, or none.',
    );
  if (publicUrl === null)
    throw new SettingsError(
      'SLIPDRIFT_OIDC_ISSUER is set and SLIPDRIFT_PUBLIC_URL is not: the provider needs an address to send people back to.',
    );
  return { issuer, clientId, clientSecret, name: found.SLIPDRIFT_OIDC_NAME };
}

function readMail({
  SLIPDRIFT_SMTP_URL: server,
  SLIPDRIFT_MAIL_FROM: from,
}: z.output<typeof variables>): MailSettings | null {
  if (server === undefined && from === undefined) return null;
  if (server === undefined || from === undefined)
    throw new SettingsError('SLIPDRIFT_SMTP_URL and SLIPDRIFT_MAIL_FROM belong together: set both, or none.');
  return { server, from };
}

const USUAL_TOPIC = 'slipdrift/+/readings';

function readMqtt({
  SLIPDRIFT_MQTT_URL: server,
  SLIPDRIFT_MQTT_TOPIC: topic,
  SLIPDRIFT_MQTT_USER: user,
  SLIPDRIFT_MQTT_PASSWORD: password,
}: z.output<typeof variables>): MqttSettings | null {
  if (server === undefined) {
    const given = {
      SLIPDRIFT_MQTT_TOPIC: topic,
      SLIPDRIFT_MQTT_USER: user,
      SLIPDRIFT_MQTT_PASSWORD: password,
    };
    const [name] = Object.entries(given).find(([, value]) => value !== undefined) ?? [];
    if (name !== undefined) throw new SettingsError(`${name} is set and SLIPDRIFT_MQTT_URL is not.`);
    return null;
  }
  if (password !== undefined && user === undefined)
    throw new SettingsError('SLIPDRIFT_MQTT_PASSWORD is set and SLIPDRIFT_MQTT_USER is not.');
  if (user !== undefined && server.signIn !== null)
    throw new SettingsError(
      'SLIPDRIFT_MQTT_URL holds a user and SLIPDRIFT_MQTT_USER is set: leave one of them away.',
    );
  const signIn = user === undefined ? server.signIn : { user, password: password ?? '' };
  return { server: { ...server, signIn }, topic: topic ?? USUAL_TOPIC };
}

/** https, or http where nothing leaves this machine. */
const isSafeAddress = ({ protocol, hostname }: URL): boolean =>
  protocol === 'https:' || (protocol === 'http:' && isLoopback(hostname));

const isWebAddress = (url: URL): boolean =>
  isSafeAddress(url) && url.pathname === '/' && url.search === '' && url.hash === '' && url.username === '';

const isLoopback = (host: string): boolean => /^(localhost|::1|\[::1\]|127(\.\d{1,3}){3})$/i.test(host);
