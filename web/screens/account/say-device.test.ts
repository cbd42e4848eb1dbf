import { expect, it } from 'vitest';
import { sayDevice } from './say-device.ts';

it('tells what is carried from what stands, and says where nothing is known', () => {
  expect(sayDevice('Browser/5.0 (Linux; K) Engine/537.36 Mobile Thing/537.36')).toBe('Phone or tablet');
  expect(sayDevice('Browser/5.0 (X11; Linux x86_64) Engine/537.36')).toBe('Computer');
  expect(sayDevice(' ')).toBe('Unknown device');
  expect(sayDevice(null)).toBe('Unknown device');
});
