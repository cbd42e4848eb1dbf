/** The closed word lists of the product. Code, API and screens use these and no others. */

export const grades = ['hold', 'book', 'watch', 'steady', 'unknown'] as const;
export type Grade = (typeof grades)[number];

/** Why a stored reading is set aside, in the order in which the gate asks. */
export const setAsideReasons = [
  'odometer',
  'not_commanded',
  'shifting',
  'overrun',
  'low_load',
  'low_speed',
  'cold',
  'hot',
  'duty_moving',
] as const;
export type SetAsideReason = (typeof setAsideReasons)[number];

export const lifeSources = ['original', 'new', 'rebuilt', 'used'] as const;
export type LifeSource = (typeof lifeSources)[number];

export const lifeEndings = ['failed', 'preventive', 'retired'] as const;
export type LifeEnding = (typeof lifeEndings)[number];

/** What the evidence is consistent with; never a diagnosis. */
export const patterns = [
  'none',
  'drift_all_commands',
  'drift_low_command',
  'drift_high_command',
  'drift_hot',
  'accelerating',
  'step_then_level',
  'full_slip',
  'slipping_on_arrival',
  'code_only',
  'fell_back',
] as const;
export type Pattern = (typeof patterns)[number];

export const problemCodes = [
  'invalid_request',
  'unsupported_content_type',
  'body_too_large',
  'body_broken',
  'body_stalled',
  'body_empty',
  'key_reused',
  'key_in_progress',
  'not_found',
  'not_allowed',
  'unauthorized',
  'method_not_allowed',
  'busy',
  'storage_full',
  'storage_unavailable',
  'internal',
] as const;
export type ProblemCode = (typeof problemCodes)[number];
