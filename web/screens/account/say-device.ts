/** A browser's own name for itself is long and mostly untrue; this much can be had from it. */
export function sayDevice(device: string | null): string {
  if (device === null || device.trim() === '') return 'Unknown device';
  return /\bmobile\b/i.test(device) ? 'Phone or tablet' : 'Computer';
}
