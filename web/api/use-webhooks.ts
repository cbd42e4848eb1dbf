import { keepPreviousData, useMutation, useQuery, useQueryClient } from '@tanstack/react-query';
import type {
  NewWebhook,
  Webhook,
  WebhookChange,
  WebhookInput,
  WebhookPost,
  WebhookPosts,
} from '#server/contract/webhooks.ts';
import { getJson } from './get-json.ts';
import { sendJson } from './send-json.ts';

const webhooksKey = ['webhooks'] as const;
export const postsPageSize = 25;
/** Events are sent in the background: what waits changes by itself. */
const lookEveryMs = 15_000;

export const useWebhooks = () =>
  useQuery({
    queryKey: [...webhooksKey, 'list'],
    queryFn: ({ signal }) => getJson<Webhook[]>('/webhooks', {}, signal),
    refetchInterval: lookEveryMs,
  });

export const useWebhookPosts = (id: number, page: number) =>
  useQuery({
    queryKey: [...webhooksKey, 'posts', id, page],
    queryFn: ({ signal }) =>
      getJson<WebhookPosts>(
        `/webhooks/${id}/posts`,
        { limit: postsPageSize, offset: (page - 1) * postsPageSize },
        signal,
      ),
    placeholderData: keepPreviousData,
    refetchInterval: lookEveryMs,
  });

function useSending<T, V>(send: (value: V) => Promise<T>) {
  const client = useQueryClient();
  return useMutation({
    mutationFn: send,
    onSettled: () => client.invalidateQueries({ queryKey: webhooksKey }),
    gcTime: 0,
  });
}

export const useMakeWebhook = () =>
  useSending((input: WebhookInput) => sendJson<NewWebhook>('POST', '/webhooks', input));
export const useChangeWebhook = (id: number) =>
  useSending((change: WebhookChange) => sendJson<Webhook>('PATCH', `/webhooks/${id}`, change));
export const useEndWebhook = () => useSending((id: number) => sendJson<Webhook>('DELETE', `/webhooks/${id}`));
export const useSendTrial = (id: number) =>
  useSending((_: null) => sendJson<WebhookPost>('POST', `/webhooks/${id}/trial`));
export const useSendAgain = (id: number) =>
  useSending((post: string) => sendJson<WebhookPost>('POST', `/webhooks/${id}/posts/${post}/again`));
