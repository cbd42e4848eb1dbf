import { Matrix } from 'ml-matrix';
import { expect, it } from 'vitest';
import { findDependence } from './find-dependence.ts';

it('runs as its note says', () => {
  const information = new Matrix([
    [1, 2],
    [2, 4],
  ]);
  expect(findDependence(information, 1)).toEqual({ index: 1, of: [0] });
});

it('names those that a covariate is made of, and no others', () => {
  const a = [1, 0, 0];
  const b = [0, 1, 0];
  const c = [0, 0, 1];
  const rows = [a, b, c, [2, 0, -1]];
  const information = new Matrix(rows).mmul(new Matrix(rows).transpose());
  expect(findDependence(information, 1)).toEqual({ index: 3, of: [0, 2] });
  expect(findDependence(information.subMatrix(0, 2, 0, 2), 1)).toBeNull();
});

it('finds one that never differs', () => {
  expect(findDependence(new Matrix([[0]]), 5)).toEqual({ index: 0, of: [] });
});
