import { describe, expect, it } from 'vitest';
import { parseJsonLine } from './parse-json-line.ts';

describe('a line that is not JSON', () => {
  it.each([
    ['{"a":1', '', 'is not JSON: it ends too early'],
    ['{"a":"x', '', 'is not JSON: it ends too early'],
    ['{"a":1,}', '', 'is not JSON: expected double-quoted property name at character 8'],
    ['{"a": x}', '', "is not JSON: unexpected token 'x'"],
    ['{"slip_rpm":NaN}', 'slip_rpm', 'must be a number, not NaN'],
    ['{"a":1,"fluid_c" : -inf}', 'fluid_c', 'must be a number, not -inf'],
  ])('%s says so without repeating the line', (raw, field, message) => {
    expect(parseJsonLine(3, raw)).toEqual({ line: 3, raw, value: undefined, errors: [{ field, message }] });
  });
});
