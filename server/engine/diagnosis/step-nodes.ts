import type { Branch, TreeNode } from './diagnosis-model.ts';

/** An electrical fault ends the search before anything is opened. */
const currentFails: readonly Branch[] = [
  { results: ['no_current'], says: 'No current', to: 'no_current' },
  { results: ['current_low'], says: 'Too little current', to: 'current_low' },
  { results: ['current_high'], says: 'Too much current', to: 'current_high' },
  { results: ['current_stays'], says: 'Current on and off alike', to: 'current_stays' },
];

/** Whatever else was found: lining or metal in the pan is from inside, and reaches the cooler. */
const debris: readonly Branch[] = [
  { results: ['pan_lining'], says: 'Flakes of lining', to: 'cooler_lining' },
  { results: ['pan_metal'], says: 'Metal', to: 'cooler_metal' },
];

function roadTest(id: string, title: string, whereItHolds: string): TreeNode {
  return {
    id,
    step: 'road_test',
    title,
    branches: [
      { results: ['slips'], says: 'Slips and does not catch', to: 'current' },
      { results: ['slip_raised'], says: 'More than usual: repeat or go on', to: 'current_unsure' },
      {
        results: ['too_little_steady'],
        says: 'Too little steady: repeat or go on',
        to: 'current_unsure',
      },
      { results: ['holds'], says: 'Holds', to: whereItHolds },
    ],
    end: null,
  };
}

function current(id: string, title: string, whereRight: string): TreeNode {
  return {
    id,
    step: 'solenoid_current',
    title,
    branches: [{ results: ['current_right'], says: 'Current is right', to: whereRight }, ...currentFails],
    end: null,
  };
}

function pan(id: string, title: string, whereNoDebris: string): TreeNode {
  return {
    id,
    step: 'pan',
    title,
    branches: [
      { results: ['pan_clean', 'pan_fine'], says: 'Clean, or fine grey paste', to: whereNoDebris },
      ...debris,
    ],
    end: null,
  };
}

function cooler(id: string, title: string, whereItFlows: string, whereRestricted: string): TreeNode {
  return {
    id,
    step: 'cooler',
    title,
    branches: [
      { results: ['cooler_flows'], says: 'Flows', to: whereItFlows },
      { results: ['cooler_restricted'], says: 'Restricted', to: whereRestricted },
    ],
    end: null,
  };
}

/** The places of the tree at which a step is to be done, the root first. */
export const stepNodes: readonly TreeNode[] = [
  {
    id: 'fluid',
    step: 'fluid',
    title: 'Fluid: level, colour, smell',
    branches: [
      { results: ['fluid_right'], says: 'Right', to: 'road_test' },
      {
        results: ['level_low', 'level_high'],
        says: 'Level wrong: correct, then drive',
        to: 'road_test_level',
      },
      { results: ['fluid_burnt'], says: 'Burnt', to: 'road_test_burnt' },
      { results: ['coolant_in_fluid'], says: 'Milky', to: 'coolant' },
    ],
    end: null,
  },
  roadTest('road_test', 'Road test', 'current_holds'),
  roadTest('road_test_level', 'Road test, level corrected', 'current_level'),
  roadTest('road_test_burnt', 'Road test, fluid burnt', 'current_burnt'),
  current('current', 'Solenoid current, slip confirmed', 'pressure'),
  current('current_unsure', 'Solenoid current, slip not confirmed', 'pressure_unsure'),
  current('current_holds', 'Solenoid current, clutch holds', 'no_fault'),
  current('current_level', 'Solenoid current, level corrected', 'level'),
  current('current_burnt', 'Solenoid current, fluid burnt', 'pan_burnt'),
  {
    id: 'pressure',
    step: 'pressure',
    title: 'Pressure, slip confirmed',
    branches: [
      { results: ['pressure_changes'], says: 'Changes', to: 'pan' },
      { results: ['pressure_stays'], says: 'Stays', to: 'valve_body' },
      {
        results: ['pressure_unclear'],
        says: 'Unclear: repeat or go on',
        to: 'pan_unsure',
      },
    ],
    end: null,
  },
  {
    id: 'pressure_unsure',
    step: 'pressure',
    title: 'Pressure, slip not confirmed',
    branches: [
      { results: ['pressure_changes'], says: 'Changes', to: 'pan_unsure' },
      { results: ['pressure_stays'], says: 'Stays', to: 'valve_body' },
      {
        results: ['pressure_unclear'],
        says: 'Unclear: repeat or go on',
        to: 'pan_unsure',
      },
    ],
    end: null,
  },
  pan('pan', 'Debris in the pan', 'converter_worn'),
  pan('pan_unsure', 'Debris in the pan, not all clear', 'repeat'),
  pan('pan_burnt', 'Debris in the pan, fluid burnt', 'burnt_only'),
  cooler('cooler_lining', 'Cooler flow, lining in the pan', 'converter_lining', 'converter_lining_cooler'),
  cooler('cooler_metal', 'Cooler flow, metal in the pan', 'converter_metal', 'converter_metal_cooler'),
];
