import { z } from 'zod';
import { moment, plainText } from './readings.ts';
import { keyRights } from './words.ts';

const requestsPerMinute = z.int().min(1).max(100_000);
const maxBodyMib = z.int().min(1).max(65_536);

export const keyInput = z
  .object({
    name: plainText
      .pipe(z.string().trim().min(1).max(120))
      .meta({ description: 'whose it is: one key for each machine' }),
    right: z.enum(keyRights),
    expires_at: moment.nullable().default(null).meta({ description: 'null for never' }),
    requests_per_minute: requestsPerMinute.default(600),
    max_body_mib: maxBodyMib
      .nullable()
      .default(null)
      .meta({ description: 'longest delivery; null for that of the installation' }),
  })
  .meta({ id: 'KeyInput' });
export type KeyInput = z.output<typeof keyInput>;

export const accessKey = z
  .object({
    id: z.string(),
    name: z.string(),
    right: z.enum(keyRights),
    state: z.enum(['active', 'expired', 'revoked']),
    begins: z.string().meta({ description: 'first characters, to tell keys apart' }),
    created_at: moment,
    created_by: z.string(),
    expires_at: moment.nullable(),
    revoked_at: moment.nullable(),
    used_at: moment.nullable().meta({ description: 'last use, to within a minute' }),
    used_from: z.string().nullable(),
    requests_per_minute: z.int(),
    max_body_mib: z.int().nullable(),
  })
  .meta({ id: 'AccessKey' });
export type AccessKey = z.infer<typeof accessKey>;

export const newKey = z
  .object({
    key: accessKey,
    secret: z.string().meta({ description: 'shown this once; only a digest of it is kept' }),
  })
  .meta({ id: 'NewKey' });
export type NewKey = z.infer<typeof newKey>;
