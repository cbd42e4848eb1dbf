import { resolve } from 'node:path';
import { z } from 'zod';

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
  SLIPDRIFT_KEEP_READINGS_MONTHS: optional(wholeNumber(0, 1200).default(36)),
  SLIPDRIFT_MAX_BODY_MIB: optional(wholeNumber(1, 65_536).default(256)),
  SLIPDRIFT_BODY_IDLE_S: optional(wholeNumber(1, 3600).default(60)),
  SLIPDRIFT_LOG_LEVEL: optional(
    z
      .enum(['debug', 'info', 'warn', 'error', 'silent'], {
        error: 'must be one of debug, info, warn, error, silent',
      })
      .default('info'),
  ),
});

export interface Settings {
  /** null: start a PostgreSQL of our own on `dataFolder` */
  databaseUrl: string | null;
  dataFolder: string;
  host: string;
  port: number;
  apiKey: string | null;
  /** 0 keeps readings for ever */
  keepReadingsMonths: number;
  maxBodyBytes: number;
  /** for how long nothing of a delivery may come */
  bodyIdleMs: number;
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
  if (found.SLIPDRIFT_API_KEY === undefined && !isLoopback(found.HOST))
    throw new SettingsError(
      `HOST is ${found.HOST}, which others can reach, and SLIPDRIFT_API_KEY is not set: set a key, or leave HOST at 127.0.0.1.`,
    );
  return {
    databaseUrl: found.DATABASE_URL ?? null,
    dataFolder: resolve(found.SLIPDRIFT_DATA),
    host: found.HOST,
    port: found.PORT,
    apiKey: found.SLIPDRIFT_API_KEY ?? null,
    keepReadingsMonths: found.SLIPDRIFT_KEEP_READINGS_MONTHS,
    maxBodyBytes: found.SLIPDRIFT_MAX_BODY_MIB * 1024 * 1024,
    bodyIdleMs: found.SLIPDRIFT_BODY_IDLE_S * 1000,
    logLevel: found.SLIPDRIFT_LOG_LEVEL,
  };
}

const isLoopback = (host: string): boolean => /^(localhost|::1|\[::1\]|127(\.\d{1,3}){3})$/i.test(host);
