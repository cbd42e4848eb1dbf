const own = 'http://own.invalid';
/** Screens that would lead back to where one stands. */
const doors = ['/sign-in', '/welcome'];

/** Where to go after signing in: only a path of this server, whatever an address says. */
export function readOwnPath(text: unknown): string {
  if (typeof text !== 'string' || !text.startsWith('/') || text.length > 2000) return '/';
  // Browsers read a backslash as a slash and leave out tabs, so that the parser has to be asked.
  const address = URL.canParse(text, own) ? new URL(text, own) : null;
  if (address === null || address.origin !== own || text.includes('\\')) return '/';
  if (doors.includes(address.pathname) || address.pathname.startsWith('//')) return '/';
  return address.pathname + address.search + address.hash;
}
