import { formatTenths, formatWhole } from './format-number.ts';
import { withUnit } from './with-unit.ts';

const units = ['bytes', 'KiB', 'MiB', 'GiB', 'TiB'] as const;

/** The largest unit of which there is one: 3 of 'GiB' for 5,000,000,000. */
export const bytesUnit = (bytes: number): { name: string; size: number } => {
  const power = bytes < 1024 ? 0 : Math.min(units.length - 1, Math.floor(Math.log2(bytes) / 10));
  return { name: units[power] ?? '', size: 1024 ** power };
};

/** '512 bytes', '1.4 GiB', '37 GiB': a place after the point below ten. */
export function formatBytes(bytes: number): string {
  const { name, size } = bytesUnit(bytes);
  const value = bytes / size;
  return withUnit(size > 1 && value < 9.95 ? formatTenths(value) : formatWhole(value), name);
}
