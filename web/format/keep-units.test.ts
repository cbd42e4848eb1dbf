import { expect, it } from 'vitest';
import { keepUnits } from './keep-units.ts';

it('keeps figures and units of a sentence together, and other words apart', () => {
  expect(keepUnits('Slip at 85 % command rose to 96 rpm over 9,400 km; about 18 days, 5 km/h')).toBe(
    'Slip at 85\u00a0% command rose to 96\u00a0rpm over 9,400\u00a0km; about 18\u00a0days, 5\u00a0km/h',
  );
  expect(keepUnits('3 minutes of 20 kmh, 12 daysful')).toBe('3 minutes of 20 kmh, 12 daysful');
});
