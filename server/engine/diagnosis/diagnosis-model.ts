/** What the test steps of a packet are told, and what they answer. Words are put to it elsewhere. */

/** A test step, from cheap and outside to dear and inside. */
export type Step = 'fluid' | 'road_test' | 'solenoid_current' | 'pressure' | 'pan' | 'cooler';

export type FluidResult = 'fluid_right' | 'level_low' | 'level_high' | 'coolant_in_fluid' | 'fluid_burnt';
export type RoadTestResult = 'slips' | 'slip_raised' | 'holds' | 'too_little_steady';
export type CurrentResult = 'current_right' | 'no_current' | 'current_low' | 'current_high' | 'current_stays';
export type PressureResult = 'pressure_changes' | 'pressure_stays' | 'pressure_unclear';
export type PanResult = 'pan_clean' | 'pan_fine' | 'pan_lining' | 'pan_metal';
export type CoolerResult = 'cooler_flows' | 'cooler_restricted';

export type Result = FluidResult | RoadTestResult | CurrentResult | PressureResult | PanResult | CoolerResult;

export type Verdict = 'passed' | 'failed' | 'unclear';

/** Something in the input that may be a slip of the pen. */
export interface Question {
  kind:
    | 'negative_current'
    | 'swapped'
    | 'milliamps'
    | 'clamp_range'
    | 'both_zero'
    | 'negative_pressure'
    | 'pressure_unit'
    | 'step_over_reading'
    | 'nothing_caught'
    | 'much_flow'
    | 'negative_slip';
  /** name of the input that it is about */
  field: string;
  /** inputs as they would be if the answer is yes; null where nothing can be offered */
  suggestion: Readonly<Record<string, number | string>> | null;
}

/** Nothing is judged until these are answered. */
export interface Asked {
  asks: Question[];
}

/** What to look at next. */
export type LookAt =
  | 'check_level'
  | 'correct_level'
  | 'leak'
  | 'coolant_leak'
  | 'do_not_drive'
  | 'burnt_fluid'
  | 'old_fluid'
  | 'drive_again'
  | 'hold_longer'
  | 'higher_command'
  | 'electrical_next'
  | 'platform_figures'
  | 'right_fuse'
  | 'command'
  | 'fuse'
  | 'driver'
  | 'open_wire'
  | 'open_coil'
  | 'coil_heat'
  | 'connectors'
  | 'wiring'
  | 'shorted_coil'
  | 'shorted_wiring'
  | 'shorted_driver'
  | 'foreign_feed'
  | 'other_consumers'
  | 'no_click'
  | 'valve'
  | 'better_place'
  | 'finer_gauge'
  | 'cooler'
  | 'converter'
  | 'other_metal'
  | 'cooler_lines'
  | 'replace_cooler';

/** What the input of a step comes to. */
export interface Judged<R extends Result, Figures> {
  result: R;
  verdict: Verdict;
  /** in the order in which to look */
  lookNext: LookAt[];
  /** what the judgement was made by */
  figures: Figures;
}

/** What turned out to be wrong. */
export type Cause =
  | 'lining_worn'
  | 'lining_lost'
  | 'piston_cracked'
  | 'piston_seal'
  | 'damper_broken'
  | 'one_way_clutch'
  | 'valve_stuck'
  | 'solenoid_failed'
  | 'wiring_fault'
  | 'driver_fault'
  | 'fluid_wrong'
  | 'cooler_blocked'
  | 'other'
  | 'no_fault_found';

export interface Branch {
  results: readonly Result[];
  /** the results in a few words */
  says: string;
  /** id of a node */
  to: string;
}

export interface TreeEnd {
  /** what the findings are consistent with */
  words: string;
  /** where to work: without opening, valve body with the transmission in place, converter */
  work: 'none' | 'outside' | 'valve_body' | 'converter';
  removesTransmission: boolean;
  /** to look for first */
  causes: readonly Cause[];
}

/** One place of the decision tree: a step to do, or what the findings come to. */
export interface TreeNode {
  id: string;
  /** null at an end */
  step: Step | null;
  title: string;
  branches: readonly Branch[];
  /** null where there is a step to do */
  end: TreeEnd | null;
}
