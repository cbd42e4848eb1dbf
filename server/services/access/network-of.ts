import { isIPv6 } from 'node:net';

/**
 * The network that one subscriber has: of IPv6 the first 64 bits, of which anybody may use every address; of IPv4 the
 * address itself, also where it is written as IPv6. Source: RFC 6177, section 2.
 */
export function networkOf(address: string): string {
  if (!isIPv6(address) || address.includes('.')) return address;
  const [head = '', tail] = (address.split('%')[0] ?? '').split('::');
  const before = head === '' ? [] : head.split(':');
  const after = tail === undefined || tail === '' ? [] : tail.split(':');
  const between = tail === undefined ? 0 : 8 - before.length - after.length;
  const groups = [...before, ...Array.from({ length: between }, () => '0'), ...after];
  return groups
    .slice(0, 4)
    .map((group) => Number.parseInt(group, 16).toString(16))
    .join(':');
}
