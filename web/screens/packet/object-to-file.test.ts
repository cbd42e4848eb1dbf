import { expect, it } from 'vitest';
import { objectToFile } from './object-to-file.ts';

it('takes files of up to 64 MiB, and none that is empty', () => {
  const of = (size: number) => objectToFile({ name: 'road.csv', size });
  expect(of(64 * 1024 * 1024)).toBeNull();
  expect(of(64 * 1024 * 1024 + 1)).toBe(
    'road.csv has 65 MiB; at most 64 MiB are taken. Send the part with the road test.',
  );
  expect(of(0)).toBe('road.csv is empty.');
});
