import type { ListedPerson } from '#server/contract/people.ts';

/** What a link to the people should carry. */
export interface PeopleSearch {
  q?: string;
  /** the person whose line is opened in place */
  open?: string;
}

const longestQ = 100;

export function parsePeopleSearch(raw: Record<string, unknown>): PeopleSearch {
  const textOf = (key: string): string => {
    const value = raw[key];
    return typeof value === 'string' ? value.trim().slice(0, longestQ) : '';
  };
  return {
    ...(textOf('q') === '' ? {} : { q: textOf('q') }),
    ...(textOf('open') === '' ? {} : { open: textOf('open') }),
  };
}

/** By part of the name, the e-mail or the role; who may sign in stands before who may not. */
export function pickPeople(people: readonly ListedPerson[], q: string | undefined): ListedPerson[] {
  const wanted = (q ?? '').toLowerCase();
  const isWanted = ({ name, email, role, state }: ListedPerson) =>
    [name, email, role, state].some((text) => text.toLowerCase().includes(wanted));
  return people
    .filter(isWanted)
    .toSorted(
      (a, b) =>
        Number(a.state === 'closed') - Number(b.state === 'closed') || a.name.localeCompare(b.name, 'en'),
    );
}
