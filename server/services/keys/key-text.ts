import { createHash, randomBytes, timingSafeEqual } from 'node:crypto';

/** `slipdrift_`, an id that may be shown, and 256 random bits that may not. */
const FORM = /^slipdrift_([0-9a-f]{12})_([\w-]{43})$/;

export interface KeyParts {
  id: string;
  secret: string;
}

export function makeKey(): KeyParts & { text: string } {
  const id = randomBytes(6).toString('hex');
  const secret = randomBytes(32).toString('base64url');
  return { id, secret, text: `slipdrift_${id}_${secret}` };
}

export function readKey(text: string): KeyParts | null {
  const [, id, secret] = FORM.exec(text) ?? [];
  return id === undefined || secret === undefined ? null : { id, secret };
}

/** A secret of 256 random bits needs no slow digest: there is nothing to guess. */
export const digestOf = (text: string): Buffer => createHash('sha256').update(text).digest();

/** Digests have one length, and comparing them takes the same time however much of the secret is right. */
export const isSame = (digest: Buffer, other: Buffer): boolean =>
  digest.length === other.length && timingSafeEqual(digest, other);
