import type { Pattern } from '#server/contract/words.ts';

/** What a pattern is consistent with. Common practice, no source; never a diagnosis. */
const words: Record<Pattern, string> = {
  none: 'Nothing here points at the converter clutch.',
  drift_all_commands:
    'Slip rises at every command: consistent with worn or glazed lining, or with apply pressure that is lost at any duty.',
  drift_low_command:
    'Slip rises at low command and hardly at high: consistent with a valve or solenoid that answers late, while the lining still holds.',
  drift_high_command:
    'Slip rises at high command more than at low: consistent with apply pressure that no longer reaches its height.',
  drift_hot: 'Slip rises with fluid temperature: consistent with piston or shaft seals that leak when hot.',
  accelerating: 'The rise is getting steeper: consistent with lining that breaks up and sheds debris.',
  step_then_level:
    'Slip jumped and stayed: consistent with lining that broke away in a piece, or with a valve, a sensor or a software change.',
  full_slip: 'Full slip with the command present: the clutch hardly carries torque.',
  slipping_on_arrival:
    'Slip was already high at the first readings: the beginning was not seen, so rate and distance are uncertain.',
  code_only: 'A trouble code names the converter clutch, while slip itself says nothing.',
  fell_back: 'Slip fell back to healthy with no work on record: was a converter replaced?',
};

export const patternWords = (pattern: Pattern): string => words[pattern];
