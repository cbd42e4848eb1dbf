import { createHash, createHmac, pbkdf2Sync, randomBytes } from 'node:crypto';

const ROUNDS = 4096;
const BYTES = 32;

/**
 * What PostgreSQL keeps of a password (RFC 5802, section 3; RFC 7677 for SHA-256), so that the password itself is in no
 * statement and in no log of the server. For ASCII passwords.
 */
export function scramDigest(password: string, salt: Buffer = randomBytes(16)): string {
  const salted = pbkdf2Sync(password, salt, ROUNDS, BYTES, 'sha256');
  const keyOf = (name: string) => createHmac('sha256', salted).update(name).digest();
  const stored = createHash('sha256').update(keyOf('Client Key')).digest('base64');
  return `SCRAM-SHA-256$${ROUNDS}:${salt.toString('base64')}$${stored}:${keyOf('Server Key').toString('base64')}`;
}
