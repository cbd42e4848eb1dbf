import { createHmac, timingSafeEqual } from 'node:crypto';

interface Cookies {
  /** of the cookie that holds the token */
  name: string;
  /** of cookies that only the sign-in library reads */
  otherNames: readonly string[];
  secret: string;
}

/**
 * The token of a session cookie whose signature is right, as the sign-in library signs: HMAC-SHA-256 in base64 after a
 * dot. Null where there is none, or anything that is better left to the library.
 */
export function readSessionToken(cookies: string, { name, otherNames, secret }: Cookies): string | null {
  if (otherNames.some((other) => cookies.includes(other))) return null;
  const found = cookies.split(';').find((one) => one.trimStart().startsWith(`${name}=`));
  const value = found === undefined ? null : decode(found.slice(found.indexOf('=') + 1).trim());
  const dot = value?.lastIndexOf('.') ?? -1;
  if (value === null || dot < 1) return null;
  const token = value.slice(0, dot);
  const signature = Buffer.from(value.slice(dot + 1));
  const right = Buffer.from(createHmac('sha256', secret).update(token).digest('base64'));
  return signature.length === right.length && timingSafeEqual(signature, right) ? token : null;
}

function decode(text: string): string | null {
  try {
    return decodeURIComponent(text);
  } catch {
    return null;
  }
}
