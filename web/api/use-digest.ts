import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type { Digest, DigestState } from '#server/contract/digest.ts';
import { getJson } from './get-json.ts';
import { sendJson } from './send-json.ts';
import { useWordUnits } from './use-word-units.ts';

/** This week, and every depot that the reader sees, where left out. */
export interface DigestAsk {
  week?: string | undefined;
  depot?: string | undefined;
}

export const digestKeys = { all: ['digest'] as const };

export function useDigest({ week, depot }: DigestAsk) {
  const units = useWordUnits();
  return useQuery({
    queryKey: [...digestKeys.all, week, depot, units],
    queryFn: ({ signal }) => getJson<Digest>('/digest', { week, depot, units }, signal),
    placeholderData: keepPreviousData,
  });
}

const mailKey = ['digest-mail'] as const;

/** Whether the reader gets it by e-mail. */
export const useDigestMail = () =>
  useQuery({
    queryKey: mailKey,
    queryFn: ({ signal }) => getJson<DigestState>('/digest/mail', {}, signal),
  });

/** Asks for it, in the units that the reader reads in now, or ends it. */
export function useChooseDigestMail() {
  const client = useQueryClient();
  const units = useWordUnits();
  return useMutation({
    mutationFn: (byMail: boolean) => sendJson<DigestState>('PUT', '/digest/mail', { by_mail: byMail, units }),
    onSuccess: (state) => client.setQueryData(mailKey, state),
  });
}
