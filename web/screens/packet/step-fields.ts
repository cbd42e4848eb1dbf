import type { TestStep } from '#server/contract/words.ts';

export interface ChoiceField {
  kind: 'choice';
  name: string;
  label: string;
  options: readonly { value: string; label: string; words?: string }[];
  /** taken while nothing was chosen; a choice without one must be made */
  usual?: string;
}

export interface FigureField {
  kind: 'figure';
  name: string;
  label: string;
  /** null where another field says it */
  unit: string | null;
  least: number;
  most: number;
  hint?: string;
  mayStayEmpty?: boolean;
}

export interface TickField {
  kind: 'tick';
  name: string;
  label: string;
  words?: string;
}

export type StepField = ChoiceField | FigureField | TickField;

/** A tick is kept as text, like everything that was typed. */
export const ticked = 'yes';

/** The fields of each test step, named as the contract names them. Bounds are the contract's. */
export const stepFields: Record<TestStep, readonly StepField[]> = {
  fluid: [
    {
      kind: 'choice',
      name: 'level',
      label: 'Level, by the maker’s method and at its temperature',
      options: [
        { value: 'right', label: 'Between the marks' },
        { value: 'low', label: 'Low' },
        { value: 'high', label: 'High' },
        { value: 'not_checked', label: 'Not checked' },
      ],
    },
    {
      kind: 'choice',
      name: 'colour',
      label: 'Colour on a white cloth',
      options: [
        { value: 'red', label: 'Red, or as new' },
        { value: 'amber', label: 'Amber' },
        { value: 'brown', label: 'Brown' },
        { value: 'black', label: 'Black' },
        { value: 'milky', label: 'Milky or pink' },
      ],
    },
    {
      kind: 'choice',
      name: 'smell',
      label: 'Smell',
      options: [
        { value: 'usual', label: 'As fluid smells' },
        { value: 'burnt', label: 'Burnt' },
      ],
    },
  ],
  road_test: [
    {
      kind: 'figure',
      name: 'duty_pct',
      label: 'Command that was held',
      unit: '%',
      least: 0,
      most: 100,
      hint: 'of the clutch, as the scan tool shows it',
    },
    {
      kind: 'figure',
      name: 'slip_rpm',
      label: 'Slip at that command',
      unit: 'rpm',
      least: -6000,
      most: 6000,
      hint: 'engine speed less turbine speed',
    },
    { kind: 'figure', name: 'seconds', label: 'Held for', unit: 's', least: 1, most: 3600 },
    {
      kind: 'tick',
      name: 'falls',
      label: 'Slip fell while the command was held',
      words: 'It was still closing, so the figure is not steady yet.',
    },
  ],
  solenoid_current: [
    {
      kind: 'figure',
      name: 'off_a',
      label: 'Current, commanded off',
      unit: 'A',
      least: -10_000,
      most: 10_000,
      hint: 'at the fuse',
    },
    {
      kind: 'figure',
      name: 'on_a',
      label: 'Current, commanded on',
      unit: 'A',
      least: -10_000,
      most: 10_000,
      hint: 'at the same fuse',
    },
    {
      kind: 'figure',
      name: 'supply_v',
      label: 'Supply voltage, if measured',
      unit: 'V',
      least: 5,
      most: 60,
      hint: 'the platform’s where left empty',
      mayStayEmpty: true,
    },
    {
      kind: 'choice',
      name: 'click',
      label: 'Click as the command changes',
      usual: 'not_listened',
      options: [
        { value: 'heard', label: 'Heard' },
        { value: 'not_heard', label: 'Not heard' },
        { value: 'not_listened', label: 'Did not listen' },
      ],
    },
  ],
  pressure: [
    {
      kind: 'choice',
      name: 'place',
      label: 'Where the gauge is',
      options: [
        { value: 'clutch_port', label: 'Clutch port' },
        { value: 'line', label: 'Line pressure port' },
        { value: 'cooler_line', label: 'Cooler line' },
      ],
    },
    {
      kind: 'choice',
      name: 'unit',
      label: 'Unit of the gauge',
      usual: 'bar',
      options: [
        { value: 'bar', label: 'bar' },
        { value: 'kpa', label: 'kPa' },
        { value: 'psi', label: 'psi' },
      ],
    },
    { kind: 'figure', name: 'off', label: 'Pressure, commanded off', unit: null, least: -100, most: 10_000 },
    { kind: 'figure', name: 'on', label: 'Pressure, commanded on', unit: null, least: -100, most: 10_000 },
    {
      kind: 'figure',
      name: 'smallest_step',
      label: 'Smallest step of the gauge',
      unit: null,
      least: 0.001,
      most: 1000,
      hint: 'the least difference that can be read off',
    },
  ],
  pan: [
    {
      kind: 'choice',
      name: 'debris',
      label: 'What lies in the pan and on the magnet',
      options: [
        { value: 'none', label: 'Nothing', words: 'clean, or a thin grey film on the magnet' },
        { value: 'fine', label: 'Fine paste', words: 'dark, smears between the fingers, nothing to feel' },
        { value: 'lining', label: 'Lining', words: 'dark flakes or fibres' },
        { value: 'metal', label: 'Metal', words: 'chips or slivers that can be felt' },
      ],
    },
  ],
  cooler: [
    {
      kind: 'figure',
      name: 'litres',
      label: 'Caught from the return line',
      unit: 'L',
      least: 0,
      most: 100,
    },
    {
      kind: 'figure',
      name: 'seconds',
      label: 'Time of catching',
      unit: 's',
      least: 5,
      most: 600,
      hint: 'engine idling',
    },
  ],
};
