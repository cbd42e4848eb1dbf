import type { PlainRule, ReplayFailure, ReplayNeedless, ReplayState } from '#server/contract/replay.ts';

export const ruleWords: Record<'list' | PlainRule, string> = {
  list: 'the list',
  slip_level: 'slip above a level',
  weekly_rise: 'slip rising in a week',
};

export const stateWords: Record<ReplayState, string> = {
  waiting: 'waiting for another to end',
  running: 'running',
  done: 'done',
  cancelled: 'cancelled',
  failed: 'broke off',
};

export const cameWords: Record<ReplayFailure['what'], string> = {
  failed: 'failed',
  reached_limit: 'reached the limit',
  confirmed: 'fault found by the shop',
};

export const whyWords: Record<ReplayNeedless['why'], string> = {
  no_fault_found: 'the shop found nothing',
  early: 'early: it slipped, the limit was further',
  nothing_came: 'nothing came, slip has not risen',
};
