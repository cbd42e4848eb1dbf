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

/** Who makes a change: a signed-in person, a key, whoever has the link of a packet, or the program itself. */
export const actorKinds = ['person', 'key', 'link', 'program'] as const;
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
  'packet',
  'notebook',
  'webhook',
  'storage',
  'mapping',
  'refused_lines',
  'odometer',
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
  'ended',
  'sent_to_shop',
  'called_back',
  'booked',
  'booking_moved',
  'booking_put_off',
  'booking_cancelled',
  'booking_done',
  'packet_opened',
  'finding_recorded',
  'file_added',
  'report_saved',
  'packet_closed',
  'core_noted',
  'link_made',
  'link_revoked',
  'restored',
  'distributed',
  'let_in',
  'laid_aside',
  'opened_again',
  'answered',
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

/** Test steps of a packet, from cheap and outside to dear and inside. */
export const testSteps = ['fluid', 'road_test', 'solenoid_current', 'pressure', 'pan', 'cooler'] as const;
export type TestStep = (typeof testSteps)[number];

/** What a test step says of the vehicle. `failed`: something is wrong here. */
export const verdicts = ['passed', 'failed', 'unclear'] as const;
export type Verdict = (typeof verdicts)[number];

/** What a test step showed. The decision tree branches on these. */
export const findingResults = [
  'fluid_right',
  'level_low',
  'level_high',
  'coolant_in_fluid',
  'fluid_burnt',
  'slips',
  'slip_raised',
  'holds',
  'too_little_steady',
  'current_right',
  'no_current',
  'current_low',
  'current_high',
  'current_stays',
  'pressure_changes',
  'pressure_stays',
  'pressure_unclear',
  'pan_clean',
  'pan_fine',
  'pan_lining',
  'pan_metal',
  'cooler_flows',
  'cooler_restricted',
] as const;
export type FindingResult = (typeof findingResults)[number];

/** What turned out to be wrong. */
export const causes = [
  'lining_worn',
  'lining_lost',
  'piston_cracked',
  'piston_seal',
  'damper_broken',
  'one_way_clutch',
  'valve_stuck',
  'solenoid_failed',
  'wiring_fault',
  'driver_fault',
  'fluid_wrong',
  'cooler_blocked',
  'other',
  'no_fault_found',
] as const;
export type Cause = (typeof causes)[number];

/** How the job of a packet ended. */
export const outcomes = ['repaired', 'no_fault_found', 'declined'] as const;
export type Outcome = (typeof outcomes)[number];

export const packetStates = ['open', 'closed'] as const;
export type PacketState = (typeof packetStates)[number];

/** What was replaced. A converter or a whole transmission ends the converter life. */
export const partKinds = [
  'converter',
  'transmission',
  'solenoid',
  'valve_body',
  'wiring',
  'control_unit',
  'cooler',
  'fluid_and_filter',
  'other',
] as const;
export type PartKind = (typeof partKinds)[number];

/** Parts with which a converter leaves the vehicle and another one comes. */
export const holdsConverter = (kind: PartKind): boolean => kind === 'converter' || kind === 'transmission';

/** What became of the old unit that the supplier holds a deposit for. */
export const coreStates = ['none', 'to_return', 'returned', 'kept'] as const;
export type CoreState = (typeof coreStates)[number];

/** What became of a line that could not be a reading. */
export const lineStates = ['open', 'let_in', 'laid_aside'] as const;
export type LineState = (typeof lineStates)[number];

/** What a vehicle lacks that came with its readings alone. */
export const vehicleLacks = ['registered', 'depot', 'platform', 'vin'] as const;
export type VehicleLack = (typeof vehicleLacks)[number];

/** What the lines of a set-up file are, in the order that works: what others name comes first. */
export const setUpKinds = ['depots', 'platforms', 'vehicles', 'lives', 'failures'] as const;
export type SetUpKind = (typeof setUpKinds)[number];
