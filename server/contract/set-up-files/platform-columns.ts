import type { SetUpColumn } from './set-up-column.ts';

type Figure = Omit<SetUpColumn, 'holds'>;
const figure = (column: Figure): SetUpColumn => ({ ...column, holds: 'number' });

/** `-` in one column of such a group takes the whole group away. */
const shop = (
  group: 'solenoid' | 'converter',
  part: string,
  unit: string,
  example: string,
  meaning: string,
): SetUpColumn =>
  figure({ name: `${group}_${part}`, path: [group, part], unit, example, meaning, clears: true });

const cost = (part: string, example: string, meaning: string): SetUpColumn =>
  figure({ name: `cost_${part}`, path: ['costs', part], unit: 'your currency', example, meaning });

const gate = (part: string, unit: string, example: string, meaning: string): SetUpColumn =>
  figure({ name: `gate_${part}`, path: ['gate', part], unit, example, meaning });

const inFahrenheit = (column: SetUpColumn): SetUpColumn => ({
  ...column,
  also: { name: column.name.replace(/_c$/, '_f'), unit: 'degF' },
});

export const platformColumns: readonly SetUpColumn[] = [
  {
    name: 'id',
    path: ['id'],
    holds: 'text',
    unit: 'text',
    needed: true,
    example: 'example-bus',
    meaning: 'Your own short name; vehicles name their platform by it',
  },
  {
    name: 'name',
    path: ['name'],
    holds: 'text',
    unit: 'text',
    needed: true,
    example: 'Example bus, six gears',
    meaning: 'As people read it',
  },
  figure({
    name: 'limit_rpm',
    path: ['limit_rpm'],
    unit: 'rpm',
    example: '150',
    meaning: 'Reference slip at which the clutch counts as failed',
  }),
  {
    name: 'band_edges_pct',
    path: ['band_edges_pct'],
    holds: 'numbers',
    unit: '% duty, spaces between',
    example: '40 55 70 85 100',
    meaning: 'Edges of the command bands, rising',
  },
  figure({
    name: 'reference_duty_pct',
    path: ['reference', 'duty_pct'],
    unit: '%',
    example: '85',
    meaning: 'Commanded duty at which slip is compared',
  }),
  figure({
    name: 'reference_load_pct',
    path: ['reference', 'load_pct'],
    unit: '%',
    example: '50',
    meaning: 'Engine load at which slip is compared',
  }),
  inFahrenheit(
    figure({
      name: 'reference_fluid_c',
      path: ['reference', 'fluid_c'],
      unit: 'degC',
      example: '85',
      meaning: 'Fluid temperature at which slip is compared',
    }),
  ),
  gate('low_load_pct', '%', '15', 'Readings below this load are set aside'),
  gate('overrun_slip_rpm', 'rpm', '-15', 'Readings with slip below this are set aside as overrun'),
  {
    ...gate('low_speed_kmh', 'km/h', '30', 'Readings below this speed are set aside'),
    also: { name: 'gate_low_speed_mph', unit: 'mph' },
  },
  inFahrenheit(gate('cold_fluid_c', 'degC', '55', 'Readings with colder fluid are set aside')),
  inFahrenheit(gate('hot_fluid_c', 'degC', '125', 'Readings with hotter fluid are set aside')),
  gate('duty_step_pct', '%', '5', 'A larger step of duty sets readings near it aside'),
  gate('duty_window_s', 's', '30', 'For how long around such a step'),
  {
    ...figure({
      name: 'life_km',
      path: ['life_km'],
      unit: 'km',
      clears: true,
      example: '400000',
      meaning: 'Expected life of a converter',
    }),
    also: { name: 'life_mi', unit: 'mi' },
  },
  shop('solenoid', 'ohm', 'ohm', '5.5', 'Resistance of the coil at 20 degC'),
  shop('solenoid', 'supply_v', 'V', '24', 'Supply of the solenoid'),
  shop('solenoid', 'wiring_ohm', 'ohm', '0.5', 'Resistance of wiring, connectors and driver'),
  shop('solenoid', 'tolerance_pct', '%', '25', 'How far a current may lie from the expected'),
  shop('converter', 'price', 'your currency', '1900', 'Price of a converter'),
  shop('converter', 'core_deposit', 'your currency', '400', 'Held until the old unit comes back'),
  shop('converter', 'spare_cores', 'whole number', '0', 'Old units at hand that can go back instead'),
  figure({
    name: 'reference_torque_nm',
    path: ['reference_torque_nm'],
    unit: 'N m',
    clears: true,
    example: '950',
    meaning: 'Engine torque that 100 % torque stands for',
  }),
  cost('road_failure', '9000', 'A failure on the road: tow, lost service, transmission'),
  cost('planned_repair', '3200', 'The same converter changed in a booked bay'),
  cost('inspection', '120', 'One inspection: work and material'),
  cost('lost_day', '60', 'What the service loses while the vehicle is in the bay'),
  figure({
    name: 'inspection_hours',
    path: ['inspection_hours'],
    unit: 'h, in quarters',
    example: '3',
    meaning: 'How long an inspection has a bay',
  }),
];
