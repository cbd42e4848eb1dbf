import { BlockList, isIP } from 'node:net';
import { SlipdriftError } from '#server/errors.ts';

const inner = new BlockList();
inner.addSubnet('127.0.0.0', 8, 'ipv4');
inner.addSubnet('10.0.0.0', 8, 'ipv4');
inner.addSubnet('172.16.0.0', 12, 'ipv4');
inner.addSubnet('192.168.0.0', 16, 'ipv4');
inner.addAddress('::1', 'ipv6');
inner.addSubnet('fc00::', 7, 'ipv6');
/** Names that the internet does not know: one word, RFC 6761, RFC 8375, and the one ICANN keeps for this. */
const INNER_NAME = /^[^.]+$|\.(localhost|home\.arpa|internal)$/i;

const UNENCRYPTED =
  'Without https whoever is on the way can read what is sent. The signature still shows whether it was changed.';

/** The address as it is signed and called. Admins alone set it: addresses inside the network are allowed on purpose. */
export function checkAddress(text: string): string {
  if (!URL.canParse(text)) throw refuse('is no address such as https://example.com/slipdrift');
  const url = new URL(text);
  if (url.protocol !== 'https:' && url.protocol !== 'http:') throw refuse('must begin with https://');
  if (url.username !== '' || url.password !== '') throw refuse('must not hold a name or password');
  if (url.hash !== '') throw refuse('must not hold a #');
  if (url.protocol === 'http:' && !isInner(url.hostname))
    throw refuse('must begin with https:// unless it is this machine or inside your network');
  return url.href;
}

export const warnOf = (url: string): string | null => (url.startsWith('http:') ? UNENCRYPTED : null);

function isInner(hostname: string): boolean {
  const host = hostname.replace(/^\[|\]$/g, '');
  const version = isIP(host);
  if (version === 0) return INNER_NAME.test(host);
  return inner.check(host, version === 4 ? 'ipv4' : 'ipv6');
}

const refuse = (message: string): SlipdriftError =>
  new SlipdriftError('invalid_request', `The address ${message}. Nothing was changed.`, {
    errors: [{ field: 'url', message }],
  });
