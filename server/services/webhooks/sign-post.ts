import { createHash, createHmac } from 'node:crypto';

export interface SignedPart {
  /** as in `"content-type"` or `"@target-uri"` */
  name: string;
  value: string;
}

/** RFC 9421, 2.5: one line a part, and what the signature says of itself last. */
export function makeSignatureBase(parts: readonly SignedPart[], parameters: string): string {
  return [
    ...parts.map(({ name, value }) => `"${name}": ${value}`),
    `"@signature-params": ${parameters}`,
  ].join('\n');
}

/** RFC 9421, 3.3.3: HMAC using SHA-256, in base64. */
export const signBase = (base: string, key: string | Buffer): string =>
  createHmac('sha256', key).update(base).digest('base64');

export interface PostToSign {
  url: string;
  event: string;
  body: string;
  /** the text of the webhook's secret is the key, byte for byte */
  secret: string;
  keyId: string;
  at: Date;
}

/** Headers of a signed POST: HTTP Message Signatures (RFC 9421) over Digest Fields (RFC 9530). */
export function signPost({ url, event, body, secret, keyId, at }: PostToSign): Record<string, string> {
  const digest = `sha-256=:${createHash('sha256').update(body).digest('base64')}:`;
  const contentType = 'application/json';
  const parts = [
    { name: '@method', value: 'POST' },
    { name: '@target-uri', value: url },
    { name: 'content-type', value: contentType },
    { name: 'content-digest', value: digest },
    { name: 'slipdrift-event', value: event },
  ];
  const names = parts.map(({ name }) => `"${name}"`).join(' ');
  const created = Math.floor(at.getTime() / 1000);
  const parameters = `(${names});created=${created};keyid="${keyId}";alg="hmac-sha256"`;
  const signature = signBase(makeSignatureBase(parts, parameters), secret);
  return {
    'content-type': contentType,
    'content-digest': digest,
    'slipdrift-event': event,
    'signature-input': `slipdrift=${parameters}`,
    signature: `slipdrift=:${signature}:`,
  };
}
