/** A key that no other delivery has; `randomUUID` is not there on pages without a certificate. */
export const makeKey = (): string =>
  [...crypto.getRandomValues(new Uint8Array(16))].map((byte) => byte.toString(16).padStart(2, '0')).join('');
