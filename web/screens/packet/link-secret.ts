const place = 'slipdrift.link';
/** For a browser that keeps nothing: lasts as long as the page. */
let inMemory: string | null = null;

export function keepSecret(secret: string): void {
  inMemory = secret;
  try {
    sessionStorage.setItem(place, secret);
  } catch {
    // Private browsing may refuse storage: the link is then opened anew after a reload.
  }
}

export function readSecret(): string | null {
  if (inMemory !== null) return inMemory;
  try {
    return sessionStorage.getItem(place);
  } catch {
    return null;
  }
}
