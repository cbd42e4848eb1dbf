import type { Pattern } from '#server/contract/words.ts';

/** What the readings look like, never what is broken. */
export const patternWords: Record<Pattern, string | null> = {
  none: null,
  drift_all_commands: 'rises at all commands alike',
  drift_low_command: 'rises first at low command',
  drift_high_command: 'rises first at high command',
  drift_hot: 'rises most when the fluid is hot',
  accelerating: 'rises faster and faster',
  step_then_level: 'one step up, then level',
  full_slip: 'does not hold at any command',
  slipping_on_arrival: 'slipped from the first reading on',
  code_only: 'a trouble code, no drift seen',
  fell_back: 'rose, then fell back',
};
