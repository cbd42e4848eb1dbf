import {
  type ChangeAction,
  type ChangeSubject,
  changeActions,
  changeSubjects,
} from '#server/contract/words.ts';
import type { ChangesFilter } from '#web/api/use-changes.ts';
import { isDay } from '#web/format/days.ts';

/** What a link to the changes should carry; days as they stand in a calendar where the reader sits. */
export interface ChangesSearch {
  subject?: ChangeSubject;
  subject_id?: string;
  action?: ChangeAction;
  actor?: string;
  since?: string;
  until?: string;
  /** the page that is older than this change */
  before_id?: number;
}

const longest = 200;

export function parseChangesSearch(raw: Record<string, unknown>): ChangesSearch {
  const search: ChangesSearch = {};
  const subject = changeSubjects.find((one) => one === raw.subject);
  if (subject !== undefined) search.subject = subject;
  const action = changeActions.find((one) => one === raw.action);
  if (action !== undefined) search.action = action;
  for (const key of ['subject_id', 'actor'] as const) {
    const text = raw[key];
    if (typeof text === 'string' && text.trim() !== '') search[key] = text.trim().slice(0, longest);
  }
  for (const key of ['since', 'until'] as const) {
    const day = raw[key];
    if (isDay(day)) search[key] = day;
  }
  const beforeId = Number(raw.before_id);
  if (Number.isSafeInteger(beforeId) && beforeId >= 1) search.before_id = beforeId;
  return search;
}

export type ChangesPatch = { [K in keyof ChangesSearch]?: ChangesSearch[K] | undefined };

/** Another filter begins at the newest change again. */
export const patchChangesSearch = (search: ChangesSearch, patch: ChangesPatch): ChangesSearch =>
  parseChangesSearch({ ...search, before_id: undefined, ...patch });

export const readFilter = ({ since, until, before_id: _, ...rest }: ChangesSearch): ChangesFilter => ({
  subject: rest.subject,
  subject_id: rest.subject_id,
  actor: rest.actor,
  action: rest.action,
  since: since === undefined ? undefined : new Date(`${since}T00:00:00`).toISOString(),
  until: until === undefined ? undefined : startOfNextDay(until),
});

/** The call leaves out what happened at `until` itself. */
function startOfNextDay(day: string): string {
  const start = new Date(`${day}T00:00:00`);
  start.setDate(start.getDate() + 1);
  return start.toISOString();
}
