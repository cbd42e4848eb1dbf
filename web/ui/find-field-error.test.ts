import { expect, it } from 'vitest';
import { findFieldError } from './find-field-error.ts';

it('finds the words for a field, and none where there are none', () => {
  const error = { errors: [{ field: 'email', message: 'is taken' }] };
  expect(findFieldError(error, 'email')).toBe('is taken');
  expect(findFieldError(error, 'name')).toBeUndefined();
  expect(findFieldError(new Error('no'), 'name')).toBeUndefined();
  expect(findFieldError(null, 'name')).toBeUndefined();
});
