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
  'conflict',
  'too_many',
  'method_not_allowed',
  'busy',
  'storage_full',
  'storage_unavailable',
  'internal',
] as const;
export type ProblemCode = (typeof problemCodes)[number];

/** What a person is here for; one each. */
export const roles = ['planner', 'shop', 'analyst', 'admin'] as const;
export type Role = (typeof roles)[number];

/** What a machine's key may do: `deliver` readings and nothing else; `read`; or `write`, which reads and delivers too. */
export const keyRights = ['deliver', 'read', 'write'] as const;
export type KeyRight = (typeof keyRights)[number];

/** Who makes a change: a signed-in person, a key, or the program itself. */
export const actorKinds = ['person', 'key', 'program'] as const;
export type ActorKind = (typeof actorKinds)[number];

/** What changes are about. */
export const changeSubjects = [
  'person',
  'key',
  'depot',
  'platform',
  'vehicle',
  'life',
  'code',
  'thresholds',
  'feed',
  'storage',
] as const;
export type ChangeSubject = (typeof changeSubjects)[number];

export const changeActions = [
  'created',
  'changed',
  'deleted',
  'invited',
  'reset_offered',
  'password_set',
  'signed_in',
  'locked_out',
  'signed_out_everywhere',
  'revoked',
  'sent_to_shop',
  'called_back',
  'booked',
  'booking_moved',
  'booking_put_off',
  'booking_cancelled',
  'booking_done',
  'restored',
] as const;
export type ChangeAction = (typeof changeActions)[number];

export const weekdays = [
  'monday',
  'tuesday',
  'wednesday',
  'thursday',
  'friday',
  'saturday',
  'sunday',
] as const;
export type Weekday = (typeof weekdays)[number];

/** `put_off`: kept without a bay and a day, until it is given new ones. */
export const bookingStates = ['booked', 'put_off', 'cancelled', 'done'] as const;
export type BookingState = (typeof bookingStates)[number];

/** Why a plan leaves a vehicle out. */
export const leftOutReasons = [
  'no_room',
  'not_worth_it',
  'unavailable',
  'no_depot',
  'no_working_day',
  'too_long',
  'stands',
  'inspected',
  'past_booking',
  'misfit_booking',
] as const;
export type LeftOutReason = (typeof leftOutReasons)[number];
