import { expect, it } from 'vitest';
import { formatShape, sayShape } from './say-shape.ts';

it('says that what wears out or fails early does so only where the whole interval agrees', () => {
  expect(sayShape({ low: 1.2, high: 3 })).toBe('wearing out');
  expect(sayShape({ low: 0.4, high: 0.9 })).toBe('failing early');
  expect(sayShape({ low: 0.8, high: 1.7 })).toBe('by chance, or too few to tell');
});

it('shows a shape to one decimal, and whole from ten on', () => {
  expect([formatShape(2.149), formatShape(14.6)]).toEqual(['2.1', '15']);
});
