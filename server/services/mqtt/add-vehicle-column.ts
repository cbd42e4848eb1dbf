import { readingFields } from '#server/contract/readings.ts';

/** A CSV that names no vehicle, with that of its topic as first column. */
export function addVehicleColumn(text: string, vehicle: string): Buffer {
  const end = text.indexOf('\n');
  const header = end === -1 ? text : text.slice(0, end);
  const names = header.split(',').map((cell) => cell.trim().replace(/^"|"$/g, ''));
  if (names.includes('vehicle') || !names.some((name) => readingFields.includes(name)))
    return Buffer.from(text);
  const cell = `"${vehicle.replaceAll('"', '""')}"`;
  const rows = text
    .split('\n')
    .map((row, i) => (row.trim() === '' ? row : i === 0 ? `vehicle,${row}` : `${cell},${row}`));
  return Buffer.from(rows.join('\n'));
}
