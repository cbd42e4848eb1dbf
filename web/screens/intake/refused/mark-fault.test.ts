import { expect, it } from 'vitest';
import { markFault } from './mark-fault.ts';

it('marks the field at fault with its value in JSON, also where that is null or a list', () => {
  const raw = '{"vehicle":"B-1","duty_pct": null,"codes":["a",1],"at":"x, y"}';
  expect(markFault(raw, 'duty_pct', null).marked).toBe('"duty_pct": null');
  expect(markFault(raw, 'codes.1', null).marked).toBe('"codes":["a",1]');
  expect(markFault(raw, 'at', null)).toEqual({
    before: raw.slice(0, -12),
    marked: '"at":"x, y"',
    after: '}',
  });
});

it('marks the cell that holds the value, where only one does', () => {
  const reading = { duty_pct: 185, slip_rpm: 18 };
  expect(markFault('B-1;18;185;x', 'duty_pct', reading).marked).toBe('185');
  expect(markFault('B-1;18;185.0;x', 'duty_pct', reading).marked).toBe('185.0');
  expect(markFault('18;18;185', 'slip_rpm', reading).marked).toBe('');
});

it('marks nothing where the whole line is at fault', () => {
  expect(markFault('{"a"', '', null)).toEqual({ before: '{"a"', marked: '', after: '' });
});
