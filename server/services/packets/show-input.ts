import type { FindingInput } from '#server/contract/test-steps.ts';
import { asEntered, pressureUnits } from './step-figures.ts';

interface Shown {
  label: string;
  value: string;
}

const levels = { low: 'Low', right: 'Right', high: 'High', not_checked: 'Not checked' };
const clicks = { heard: 'Heard', not_heard: 'Not heard', not_listened: 'Not listened for' };
const places = { line: 'Main line', cooler_line: 'Cooler line', clutch_port: 'Port of the clutch' };
const debris = { none: 'None', fine: 'Fine grey paste', lining: 'Flakes of lining', metal: 'Metal' };
const smells = { usual: 'Usual', burnt: 'Burnt' };
const colours = { red: 'Red', amber: 'Amber', brown: 'Brown', black: 'Black', milky: 'Milky' };

/** The input of a step in words and units. */
export function showInput(input: FindingInput): Shown[] {
  const shown = (label: string, value: string): Shown => ({ label, value });
  const figure = (label: string, value: number, unit: string) => shown(label, `${asEntered(value)} ${unit}`);
  switch (input.step) {
    case 'fluid':
      return [
        shown('Level', levels[input.level]),
        shown('Colour', colours[input.colour]),
        shown('Smell', smells[input.smell]),
      ];
    case 'road_test':
      return [
        figure('Command', input.duty_pct, '%'),
        figure('Slip', input.slip_rpm, 'rpm'),
        figure('Held for', input.seconds, 's'),
        shown('Slip while held', input.falls ? 'Fell' : 'Did not fall'),
      ];
    case 'solenoid_current':
      return [
        figure('Commanded off', input.off_a, 'A'),
        figure('Commanded on', input.on_a, 'A'),
        ...(input.supply_v === undefined ? [] : [figure('Supply, measured', input.supply_v, 'V')]),
        shown('Click', clicks[input.click]),
      ];
    case 'pressure': {
      const unit = pressureUnits[input.unit];
      return [
        shown('Measured at', places[input.place]),
        figure('Commanded off', input.off, unit),
        figure('Commanded on', input.on, unit),
        figure('Smallest step of the gauge', input.smallest_step, unit),
      ];
    }
    case 'pan':
      return [shown('Debris', debris[input.debris])];
    case 'cooler':
      return [figure('Caught', input.litres, 'L'), figure('In', input.seconds, 's')];
  }
}
