/** Every time zone that the browser knows, and UTC, which some leave out. */
export function listZones(): string[] {
  return [...new Set([...Intl.supportedValuesOf('timeZone'), 'UTC'])].sort();
}

/** The one zone of a city, however it is capitalised; null where none or several have its name. */
export function findCity(name: string, zones: readonly string[]): string | null {
  const city = name.trim().toLowerCase().replaceAll(' ', '_');
  const found = zones.filter((zone) => zone.toLowerCase().split('/').at(-1) === city);
  return found.length === 1 ? (found[0] ?? null) : null;
}

export function isZone(name: string): boolean {
  try {
    return new Intl.DateTimeFormat('en', { timeZone: name }).resolvedOptions().timeZone !== '';
  } catch {
    return false;
  }
}

/** '14:32 on Thursday', as a clock shows it there. */
export function sayTimeAt(zone: string, now: Date): string {
  const format = (options: Intl.DateTimeFormatOptions) =>
    new Intl.DateTimeFormat('en-GB', { timeZone: zone, ...options }).format(now);
  return `${format({ hour: '2-digit', minute: '2-digit' })} on ${format({ weekday: 'long' })}`;
}

/** The day on which it is there, as 2026-03-04. */
export function todayAt(zone: string, now: Date): string {
  const parts = new Intl.DateTimeFormat('en', {
    timeZone: isZone(zone) ? zone : 'UTC',
    year: 'numeric',
    month: '2-digit',
    day: '2-digit',
  }).formatToParts(now);
  const part = (type: string) => parts.find((one) => one.type === type)?.value ?? '';
  return `${part('year')}-${part('month')}-${part('day')}`;
}
