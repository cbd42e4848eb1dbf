import { expect, it } from 'vitest';
import { formatBytes } from './format-bytes.ts';

it('takes the largest unit of which there is one, with a place after the point below ten', () => {
  const plain = (bytes: number) => formatBytes(bytes).replace('\u00a0', ' ');
  expect([0, 512, 1024, 1_500_000, 10_450_000, 5e9, 2 ** 50].map(plain)).toEqual([
    '0 bytes',
    '512 bytes',
    '1.0 KiB',
    '1.4 MiB',
    '10 MiB',
    '4.7 GiB',
    '1,024 TiB',
  ]);
});
