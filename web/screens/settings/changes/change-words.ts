import type { Change } from '#server/contract/changes.ts';
import type { ChangeAction, ChangeSubject } from '#server/contract/words.ts';

export const actionWords: Record<ChangeAction, string> = {
  created: 'created',
  changed: 'changed',
  deleted: 'deleted',
  invited: 'invited',
  reset_offered: 'one-time address for a new password',
  password_set: 'password set',
  signed_in: 'signed in',
  locked_out: 'locked out after wrong passwords',
  signed_out_everywhere: 'signed out everywhere',
  revoked: 'revoked',
  ended: 'ended',
  sent_to_shop: 'sent to a shop',
  called_back: 'called back from the shop',
  booked: 'booked',
  booking_moved: 'booking moved',
  booking_put_off: 'booking put off',
  booking_cancelled: 'booking cancelled',
  booking_done: 'booking done',
  packet_opened: 'packet opened',
  finding_recorded: 'finding recorded',
  file_added: 'file added',
  report_saved: 'report saved',
  packet_closed: 'job closed',
  core_noted: 'old unit noted',
  link_made: 'link made',
  link_revoked: 'link revoked',
  restored: 'restored from a backup',
  distributed: 'tables distributed over machines',
  let_in: 'let in',
  laid_aside: 'laid aside',
  opened_again: 'opened again',
  answered: 'answered',
};

export const subjectWords: Record<ChangeSubject, string> = {
  person: 'person',
  key: 'key',
  depot: 'depot',
  platform: 'platform',
  vehicle: 'vehicle',
  life: 'life',
  code: 'trouble code',
  thresholds: 'thresholds',
  feed: 'calendar address',
  packet: 'packet',
  notebook: 'reader of notebooks',
  webhook: 'webhook',
  storage: 'storage',
  mapping: 'mapping of files',
  refused_lines: 'refused lines',
  odometer: 'odometer of vehicle',
};

/** The name of what was changed, as the change itself has it, or as it is known now; its id where it has none. */
export function nameSubject(
  { subject_id, before, after }: Change,
  names: ReadonlyMap<string, string>,
): string {
  for (const content of [after, before])
    if (typeof content?.name === 'string' && content.name !== '') return content.name;
  return names.get(subject_id) ?? subject_id;
}

export const sayActor = ({ kind, name }: Change['actor']): string =>
  kind === 'person' ? name : kind === 'key' ? `key ${name}` : programWords(name);

const programWords = (name: string): string => (name === 'slipdrift' ? 'Slipdrift itself' : name);
