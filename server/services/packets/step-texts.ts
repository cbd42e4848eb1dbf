import type { TestStep } from '#server/contract/words.ts';
import {
  EXHAUST,
  FLUSHING,
  GAUGES,
  HEAVY,
  HOT_FLUID,
  JUMPERS,
  RAISED,
  ROAD,
  TURNING_PARTS,
} from './caution-texts.ts';

export interface StepText {
  title: string;
  whatFor: string;
  how: string[];
  cautions: string[];
}

/** How each test step is done. Common practice, no source; the maker's service information comes first. */
export const stepTexts: Record<TestStep, StepText> = {
  fluid: {
    title: 'Fluid: level, colour, smell',
    whatFor: 'Wrong or spoiled fluid makes a good clutch slip, and costs nothing to see.',
    how: [
      'Bring the fluid to the temperature, and the engine to the state, at which the maker has the level checked.',
      'Check the level, twice, with the vehicle on level ground.',
      'Let a drop fall on white paper: colour, smell, anything that glitters.',
      'Milky means coolant: stop here. Burnt or black: go on, and look well into the pan later.',
    ],
    cautions: [HOT_FLUID, TURNING_PARTS, EXHAUST],
  },
  road_test: {
    title: 'Road test under steady command',
    whatFor: 'Shows whether the clutch slips under load now, and whether that slip stays or falls.',
    how: [
      'Warm the fluid up to its usual temperature first.',
      'Record time, throttle, speed, slip and commanded duty, ten rows a second if you can; load, fluid temperature and gear help.',
      'Hold a steady speed and throttle with the clutch commanded 70 % or more, for 20 s, three times; once on a long climb.',
      'Bring the recording in as a CSV file. Without one, write down command, slip, for how long, and whether slip fell.',
    ],
    cautions: [ROAD],
  },
  solenoid_current: {
    title: 'Solenoid current at the fuse',
    whatFor: 'One change of current shows that coil, wiring, driver and command are right together.',
    how: [
      'Set the clamp to its direct current range and zero it, then put it round a loop at the fuse that feeds the solenoid.',
      'Read the current with the clutch commanded off, then on. Command full duty: a pulsed command draws only its share.',
      'Listen for the click of the solenoid.',
      'Measure the supply at the fuse, if you can: the expected current follows it.',
    ],
    cautions: [JUMPERS, TURNING_PARTS, EXHAUST],
  },
  pressure: {
    title: 'Pressure, commanded off and on',
    whatFor:
      'Shows whether the valve moves when the solenoid is commanded. The change counts, not the figure.',
    how: [
      "Put the gauge at the clutch's port, or the cooler line where there is none; the main line shows the clutch least.",
      'With the fluid warm and the engine at a steady speed, read the pressure commanded off, then on, and again.',
      'Write down the smallest step that the gauge shows.',
    ],
    cautions: [GAUGES, HOT_FLUID, RAISED, TURNING_PARTS, EXHAUST],
  },
  pan: {
    title: 'Debris in the pan',
    whatFor: 'Shows whether lining or metal came loose inside, before anything is taken out.',
    how: [
      'Drain the fluid into a clean tray and take the pan off.',
      'Look at pan, magnet and filter; cut the filter open where debris is in doubt.',
      'Fine grey paste is usual. Flakes of lining are dark and break; metal glitters or clings to the magnet in slivers.',
      'Take a photograph.',
    ],
    cautions: [HOT_FLUID, RAISED],
  },
  cooler: {
    title: 'Cooler flow',
    whatFor: 'Debris from a converter collects in the cooler, and would ruin the next converter.',
    how: [
      'Lead the return line of the cooler into a measured can, and have fluid at hand to replace what is caught.',
      'Let the engine idle and catch for 20 s, no longer than the fluid level allows.',
      'Write down litres and seconds. About 1 L in 20 s is usual.',
      'After lining or metal: pump cleaner through a filter in both directions until the filter stays clean, or replace cooler and lines. Compressed air alone and spray cans do not count.',
    ],
    cautions: [HOT_FLUID, FLUSHING, TURNING_PARTS, EXHAUST],
  },
};

/** At the head of every packet. */
export const packetCautions: string[] = [
  "The maker's service information, local codes and licensed technicians decide. What stands here is advice; it does not say that a vehicle is safe.",
  ROAD,
  RAISED,
  HOT_FLUID,
  EXHAUST,
  JUMPERS,
  GAUGES,
  FLUSHING,
  HEAVY,
];
