import type { TestStep } from '#server/contract/words.ts';
import { blank } from './blocks.ts';

type Blank = ReturnType<typeof blank>;

/** What to write down by hand in each step: the fields that the screen asks for, in its units. */
export const stepBlanks: Record<TestStep, readonly (readonly Blank[])[]> = {
  fluid: [
    [
      blank('level: low / right / high'),
      blank('colour: red / amber / brown / black / milky'),
      blank('smell: usual / burnt', 110),
    ],
  ],
  road_test: [
    [
      blank('command, %'),
      blank('slip, rpm'),
      blank('held for, s'),
      blank('slip falls while held: yes / no', 150),
    ],
  ],
  solenoid_current: [
    [
      blank('commanded off, A'),
      blank('commanded on, A'),
      blank('supply, V'),
      blank('click: heard / not heard', 120),
    ],
  ],
  pressure: [
    [
      blank('at: line / cooler line / clutch port', 160),
      blank('off'),
      blank('on'),
      blank('unit: bar / kPa / psi', 96),
      blank('smallest step'),
    ],
  ],
  pan: [[blank('debris: none / fine grey / pieces of lining / metal')]],
  cooler: [[blank('caught, L'), blank('time, s'), blank('where', 160)]],
};

export const signBlanks: readonly Blank[] = [blank('notes'), blank('by', 110), blank('date and time', 120)];
