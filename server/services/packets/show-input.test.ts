import { expect, it } from 'vitest';
import { findingInput } from '#server/contract/test-steps.ts';
import { showInput } from './show-input.ts';

it.each([
  [
    { step: 'fluid', level: 'not_checked', colour: 'red', smell: 'burnt' },
    ['Level: Not checked', 'Colour: Red', 'Smell: Burnt'],
  ],
  [
    { step: 'road_test', duty_pct: 78, slip_rpm: 540, seconds: 12, falls: false },
    ['Command: 78 %', 'Slip: 540 rpm', 'Held for: 12 s', 'Slip while held: Did not fall'],
  ],
  [
    { step: 'solenoid_current', off_a: 0.02, on_a: 1.04, supply_v: 13.8, click: 'heard' },
    ['Commanded off: 0.02 A', 'Commanded on: 1.04 A', 'Supply, measured: 13.8 V', 'Click: Heard'],
  ],
  [
    { step: 'pressure', place: 'cooler_line', unit: 'kpa', off: 300, on: 410, smallest_step: 10 },
    [
      'Measured at: Cooler line',
      'Commanded off: 300 kPa',
      'Commanded on: 410 kPa',
      'Smallest step of the gauge: 10 kPa',
    ],
  ],
  [{ step: 'pan', debris: 'fine' }, ['Debris: Fine grey paste']],
  [{ step: 'cooler', litres: 0.95, seconds: 20 }, ['Caught: 0.95 L', 'In: 20 s']],
])('shows %o in words and units', (input, lines) => {
  expect(showInput(findingInput.parse(input)).map(({ label, value }) => `${label}: ${value}`)).toEqual(lines);
});

it('leaves out a supply that was not measured', () => {
  const input = findingInput.parse({ step: 'solenoid_current', off_a: 0, on_a: 1 });
  expect(showInput(input).map(({ label }) => label)).toEqual(['Commanded off', 'Commanded on', 'Click']);
});
