import { expect, it } from 'vitest';
import { nameFile } from './name-file.ts';

const day = new Date(2026, 2, 4, 23, 59);

it.each([
  [
    ['Vehicle B/12', 'Slip over the last 10,000 km'],
    'slipdrift-vehicle-b-12-slip-over-the-last-10-000-km-2026-03-04',
  ],
  [['Lives', 'Lives'], 'slipdrift-lives-2026-03-04'],
  [['', '…'], 'slipdrift-2026-03-04'],
  [['Überlandbus'], 'slipdrift-uberlandbus-2026-03-04'],
])('names %j', (parts, name) => expect(nameFile(parts, day)).toBe(name));
