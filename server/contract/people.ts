import { z } from 'zod';
import { depotId } from './fleet.ts';
import { moment, plainText } from './readings.ts';
import { roles } from './words.ts';

const name = plainText.pipe(z.string().trim().min(1).max(120));
const email = plainText
  .trim()
  .toLowerCase()
  .max(254)
  .pipe(z.email({ error: 'must be an e-mail address' }));
/** NIST SP 800-63B, section 5.1.1.2: length rather than mixtures of characters. */
const newPassword = z
  .string()
  .min(12, { error: 'must have at least 12 characters' })
  .max(128, { error: 'must have at most 128 characters' });
const depots = z.array(depotId).min(1).max(500).nullable().meta({
  description: 'depots that the person works for; null for all of them',
});

export const person = z
  .object({
    id: z.string(),
    name: z.string(),
    email: z.string(),
    role: z.enum(roles),
    depots,
  })
  .meta({ id: 'Person' });
export type Person = z.infer<typeof person>;

export const session = z
  .object({
    person: person.nullable().meta({ description: 'null where nobody is signed in' }),
    key: z
      .object({ name: z.string() })
      .nullable()
      .meta({ description: 'the key that this request brought, where it brought one' }),
    company: z
      .object({ name: z.string() })
      .nullable()
      .meta({ description: 'the sign-in of the company, where one is set up' }),
    first: z.boolean().meta({
      description:
        'no account exists yet: the first one is made from the address that the start of the server names',
    }),
    demo: z
      .array(z.object({ name: z.string(), email: z.string(), role: z.enum(roles), password: z.string() }))
      .nullable()
      .meta({ description: 'the accounts of the demo; null in any other installation' }),
  })
  .meta({ id: 'Session', description: 'Who asks, and how people can sign in here' });
export type Session = z.infer<typeof session>;

export const signInRequest = z
  .object({ email: plainText.trim().min(1).max(254), password: z.string().min(1).max(128) })
  .meta({ id: 'SignIn' });

export const companySignInRequest = z.object({
  to: z
    .string()
    .max(2000)
    .regex(/^\/(?![/\\])[^\\]*$/, { error: 'must be a path of this server' })
    .default('/')
    .meta({ description: 'screen to show after it' }),
});

export const oneTimePurposes = ['first_admin', 'invitation', 'reset'] as const;

const token = z.string().regex(/^[\w-]{16,128}$/, { error: 'is not of a one-time address' });
export const oneTimeLook = z.object({ token });
export const oneTimeAddress = z
  .object({
    purpose: z.enum(oneTimePurposes),
    name: z.string().nullable(),
    email: z.string().nullable(),
    expires_at: moment,
  })
  .meta({ id: 'OneTimeAddress' });
export type OneTimeAddress = z.infer<typeof oneTimeAddress>;

export const oneTimeUse = z
  .object({
    token,
    password: newPassword,
    name: name.optional().meta({ description: 'of the first admin; an invited person may correct it' }),
    email: email.optional().meta({ description: 'of the first admin' }),
  })
  .meta({ id: 'OneTimeUse' });

export const passwordChange = z
  .object({ current: z.string().min(1).max(128), password: newPassword })
  .meta({ id: 'PasswordChange' });

export const ownSession = z
  .object({
    id: z.string(),
    began_at: moment,
    seen_at: moment.meta({ description: 'to within an hour' }),
    ends_at: moment,
    from: z.string().nullable().meta({ description: 'network address' }),
    device: z.string().nullable().meta({ description: 'what the browser calls itself' }),
    current: z.boolean(),
  })
  .meta({ id: 'OwnSession' });
export type OwnSession = z.infer<typeof ownSession>;

export const listedPerson = z
  .object({
    ...person.shape,
    state: z
      .enum(['active', 'invited', 'locked', 'closed'])
      .meta({ description: 'locked: too many wrong passwords, for a while; closed: may not sign in' }),
    company: z.boolean().meta({ description: 'has signed in through the company' }),
    signed_in_at: moment.nullable(),
    locked_until: moment.nullable(),
    sessions: z.int().meta({ description: 'places where the person is signed in now' }),
    created_at: moment,
  })
  .meta({ id: 'ListedPerson' });
export type ListedPerson = z.infer<typeof listedPerson>;

export const invitation = z
  .object({ name, email, role: z.enum(roles), depots: depots.default(null) })
  .meta({ id: 'Invitation' });

export const offeredAddress = z
  .object({
    person: listedPerson,
    address: z
      .url()
      .meta({ description: 'shown once: hand it to the person; it works once, until expires_at' }),
    expires_at: moment,
  })
  .meta({ id: 'OfferedAddress' });
export type OfferedAddress = z.infer<typeof offeredAddress>;

export const personChange = z
  .object({
    name: name.optional(),
    role: z.enum(roles).optional(),
    depots: depots.optional(),
    closed: z.boolean().optional().meta({ description: 'true signs the person out everywhere at once' }),
    unlock: z.literal(true).optional().meta({ description: 'lets a locked-out person try again now' }),
  })
  .meta({ id: 'PersonChange', description: 'Fields left out stay as they are' });
