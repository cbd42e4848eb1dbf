import type { Cause, TreeEnd, TreeNode } from './diagnosis-model.ts';

const end = (
  id: string,
  title: string,
  work: TreeEnd['work'],
  causes: readonly Cause[],
  words: string,
): TreeNode => ({
  id,
  step: null,
  title,
  branches: [],
  end: { words, work, removesTransmission: work === 'converter', causes },
});

const FLUSH = 'Cooler and lines must be flushed or replaced before the new converter runs.';

/** What findings can come to. */
export const endNodes: readonly TreeNode[] = [
  end(
    'coolant',
    'Coolant in the fluid',
    'outside',
    ['fluid_wrong', 'other'],
    'Milky fluid is consistent with coolant from a leaking cooler, which softens lining and seals. Do not drive on. Find and mend the leak; the maker says what else must be opened or replaced. Then begin the tests again.',
  ),
  end(
    'no_fault',
    'No fault found on the road',
    'none',
    ['no_fault_found'],
    'The clutch holds and the solenoid draws what it should: nothing here that calls for opening. Keep the recorded drive; a slip that comes and goes needs another one, hot and under load.',
  ),
  end(
    'level',
    'Fluid level',
    'outside',
    ['fluid_wrong'],
    'The clutch holds since the level was corrected: consistent with air or too little fluid at the pump. Find out where fluid went or came from, and check the level again after some days.',
  ),
  end(
    'burnt_only',
    'Burnt fluid, clutch holds',
    'outside',
    ['fluid_wrong', 'lining_worn'],
    'The clutch holds and the pan shows no debris, yet the fluid was burnt. Change fluid and filter, look for what made the heat, and watch slip over the next weeks.',
  ),
  end(
    'no_current',
    'Electrical: no current',
    'outside',
    ['wiring_fault', 'driver_fault', 'solenoid_failed'],
    'No current where the clutch is commanded: consistent with a missing command, a fuse, an open wire or coil, or a driver that does not switch. Mend that and test again; the transmission stays in.',
  ),
  end(
    'current_low',
    'Electrical: too little current',
    'outside',
    ['wiring_fault', 'solenoid_failed'],
    'Too little current: consistent with resistance in a connector, a wire or a ground, or with a coil of too much resistance. Where the platform lacks the figures of its solenoid, set those first. Mend that and test again; the transmission stays in.',
  ),
  end(
    'current_high',
    'Electrical: too much current',
    'outside',
    ['solenoid_failed', 'wiring_fault'],
    'Too much current: consistent with turns of the coil shorted together, or a wire that touches another. Where the platform lacks the figures of its solenoid, set those first. Mend that and test again; the transmission stays in.',
  ),
  end(
    'current_stays',
    'Electrical: current on and off alike',
    'outside',
    ['driver_fault', 'wiring_fault'],
    'Current is there whether commanded or not: consistent with a shorted driver, a wire fed from elsewhere, or other consumers on that fuse. Mend that and test again; the transmission stays in.',
  ),
  end(
    'valve_body',
    'Valve does not move',
    'valve_body',
    ['valve_stuck', 'solenoid_failed'],
    'Electrics are right and pressure does not follow: consistent with a valve that sticks, or a solenoid that is stuck or leaks. Work on the valve body with the transmission in place. If its pan shows lining or metal, record that: then more than the valve is wrong.',
  ),
  end(
    'repeat',
    'Not proved yet',
    'none',
    [],
    'Nothing was found to be wrong, but the road test or the pressure was not clear. Repeat what was not clear before anything is taken out.',
  ),
  end(
    'converter_worn',
    'Converter clutch',
    'converter',
    ['lining_worn', 'piston_seal'],
    'Slip is confirmed, electrics and pressure are right, and the pan is clean: consistent with worn or glazed lining, or a piston seal that leaks, inside the converter.',
  ),
  end(
    'converter_lining',
    'Converter came apart',
    'converter',
    ['lining_lost', 'lining_worn'],
    `Flakes of lining are consistent with a converter clutch that came apart. ${FLUSH}`,
  ),
  end(
    'converter_lining_cooler',
    'Converter came apart, cooler restricted',
    'converter',
    ['lining_lost', 'cooler_blocked'],
    `Flakes of lining and a restricted cooler are consistent with a converter clutch that came apart and filled the cooler. ${FLUSH} A cooler that stays restricted is replaced.`,
  ),
  end(
    'converter_metal',
    'Metal from inside',
    'converter',
    ['piston_cracked', 'damper_broken', 'one_way_clutch'],
    `Metal is consistent with a cracked piston, a broken damper or one-way clutch in the converter, or with other parts of the transmission: look where it is from before a new converter goes in. ${FLUSH}`,
  ),
  end(
    'converter_metal_cooler',
    'Metal from inside, cooler restricted',
    'converter',
    ['piston_cracked', 'damper_broken', 'one_way_clutch', 'cooler_blocked'],
    `Metal and a restricted cooler are consistent with a converter that came apart, or with other parts of the transmission, and filled the cooler: look where the metal is from before a new converter goes in. ${FLUSH} A cooler with metal in it is better replaced.`,
  ),
];
