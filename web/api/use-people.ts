import { type QueryClient, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { ListedPerson, OfferedAddress, Person } from '#server/contract/people.ts';
import { getJson } from './get-json.ts';
import { sendJson, sendOnly } from './send-json.ts';
import { lookAgain, sessionOptions } from './session.ts';

const peopleKey = ['people'] as const;
const pathOf = (id: string) => `/people/${encodeURIComponent(id)}`;

export const usePeople = () =>
  useQuery({
    queryKey: peopleKey,
    queryFn: ({ signal }) => getJson<ListedPerson[]>('/people', {}, signal),
  });

export type Invitation = Pick<Person, 'name' | 'email' | 'role' | 'depots'>;

export function useInvite() {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (invitation: Invitation) => sendJson<OfferedAddress>('POST', '/people', invitation),
    onSuccess: () => client.invalidateQueries({ queryKey: peopleKey }),
    gcTime: 0,
  });
}

export interface PersonChange {
  name?: string;
  role?: Person['role'];
  depots?: Person['depots'];
  closed?: boolean;
  unlock?: true;
}

export function useChangePerson(id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: (change: PersonChange) => sendJson<ListedPerson>('PATCH', pathOf(id), change),
    onSuccess: (person) => putPerson(client, person),
  });
}

/** A new one-time address, with which the person sets a password. */
export function useOfferAddress(id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendJson<OfferedAddress>('POST', `${pathOf(id)}/address`),
    onSuccess: ({ person }) => putPerson(client, person),
    gcTime: 0,
  });
}

export function useSignOutPerson(id: string) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: () => sendOnly('DELETE', `${pathOf(id)}/sessions`),
    onSuccess: () => client.invalidateQueries({ queryKey: peopleKey }),
  });
}

function putPerson(client: QueryClient, person: ListedPerson): void {
  client.setQueryData<ListedPerson[]>(peopleKey, (people) =>
    people?.map((one) => (one.id === person.id ? person : one)),
  );
  void client.invalidateQueries({ queryKey: peopleKey });
  if (client.getQueryData(sessionOptions.queryKey)?.session.person?.id === person.id) lookAgain(client);
}
