import type { Exposure, FleetLivesReply, LifeGrouping, LivesGroup } from '#server/contract/lives.ts';
import { mostDrawnGroups } from '#web/charts/group-ink.ts';
import type { Units } from '#web/format/units.ts';
import { sayExposureLevel } from '#web/screens/analysis/exposure-words.ts';

const plain: readonly LifeGrouping[] = ['platform', 'depot', 'source', 'supplier', 'mode'];

export const isExposure = (grouping: LifeGrouping): grouping is Exposure => !plain.includes(grouping);

/** The groups with names for people: of platforms and depots, sources in words, thirds with their values. */
export function nameGroups(reply: FleetLivesReply, units: Units): LivesGroup[] {
  return reply.groups.map((group) => ({ ...group, name: nameGroup(reply, group.name, units) }));
}

export function nameGroup(
  { grouped_by: by, thirds, choices }: FleetLivesReply,
  name: string,
  units: Units,
): string {
  if (by === null) return 'all';
  if (by === 'platform') return nameOne(choices.platforms, name);
  if (by === 'depot') return nameOne(choices.depots, name);
  const third = thirds?.find((one) => one.name === name);
  if (!isExposure(by) || third === undefined) return name;
  const [from, to] = [third.from, third.to].map((value) => sayExposureLevel(by, value, units));
  return `${name}, ${from} to ${to}`;
}

/** With its id where another has the same name. */
function nameOne(all: readonly { id: string; name: string }[], id: string): string {
  const name = all.find((one) => one.id === id)?.name ?? id;
  return all.some((one) => one.id !== id && one.name === name) ? `${name} (${id})` : name;
}

/** The six with most failures, in their order, and those that are not drawn. */
export function pickDrawn(groups: readonly LivesGroup[]): { drawn: LivesGroup[]; others: LivesGroup[] } {
  const most = new Set(groups.toSorted((a, b) => b.events - a.events || b.n - a.n).slice(0, mostDrawnGroups));
  return { drawn: groups.filter((one) => most.has(one)), others: groups.filter((one) => !most.has(one)) };
}
