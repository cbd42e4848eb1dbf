/**
 * Choices of many vehicles for an address: few stand in it, many are kept for the session of this window, and the address
 * names what was kept. Unit numbers may hold commas and colons themselves, so each is encoded.
 */
const longest = 1500;
const mark = 'kept:';
const place = 'slipdrift.units';
/** Older choices are forgotten, so that ticking row after row does not fill the storage. */
const mostKept = 40;
/** For a browser that keeps nothing: lasts as long as the page. */
const inMemory = new Map<string, string>();

export const joinUnits = (units: readonly string[]): string =>
  units.map((unit) => encodeURIComponent(unit)).join(',');

export const splitUnits = (joined: string): string[] => [
  ...new Set(
    joined
      .split(',')
      .filter((part) => part !== '')
      .map(decode),
  ),
];

/** The text for an address; '' for none. */
export function writeUnits(units: readonly string[]): string {
  const joined = joinUnits(units);
  if (joined.length <= longest) return joined;
  const key = nameText(joined);
  keep(key, joined);
  return mark + key;
}

/** The units that a text of an address stands for; null where it names a choice that this window does not have. */
export function readUnits(text: string | undefined): string[] | null {
  if (text === undefined) return [];
  if (!text.startsWith(mark)) return splitUnits(text);
  const joined = find(text.slice(mark.length));
  return joined === null ? null : splitUnits(joined);
}

function keep(key: string, joined: string): void {
  inMemory.delete(key);
  inMemory.set(key, joined);
  for (const old of [...inMemory.keys()].slice(0, -mostKept)) inMemory.delete(old);
  try {
    const keys = readKeys().filter((one) => one !== key);
    for (const old of keys.slice(0, Math.max(0, keys.length + 1 - mostKept)))
      sessionStorage.removeItem(`${place}.${old}`);
    sessionStorage.setItem(`${place}.${key}`, joined);
    sessionStorage.setItem(place, [...keys, key].slice(-mostKept).join(','));
  } catch {
    // Private browsing may refuse storage, and it may be full: the choice then lasts as long as the page.
  }
}

function find(key: string): string | null {
  const known = inMemory.get(key);
  if (known !== undefined) return known;
  try {
    return sessionStorage.getItem(`${place}.${key}`);
  } catch {
    return null;
  }
}

const readKeys = (): string[] => (sessionStorage.getItem(place) ?? '').split(',').filter((key) => key !== '');

/** FNV-1a, 32 bits: the same choice gets the same name. */
function nameText(text: string): string {
  let hash = 0x811c9dc5;
  for (let i = 0; i < text.length; i++) hash = Math.imul(hash ^ text.charCodeAt(i), 0x01000193);
  return `${(hash >>> 0).toString(36)}-${text.length.toString(36)}`;
}

function decode(part: string): string {
  try {
    return decodeURIComponent(part);
  } catch {
    return part;
  }
}
