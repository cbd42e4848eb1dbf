import { SlipdriftError } from '#server/errors.ts';
import type { MakePreview } from '#server/services/settings/preview-desk.ts';
import { startTurnThread } from '#server/start-turn-thread.ts';
import type { FromThread, ThreadSettings, ToThread } from './messages.ts';

export interface PreviewThread {
  /** One at a time in the order they are asked for; one that nobody wants any more is passed over, or broken off. */
  make: MakePreview;
  stop(): Promise<void>;
}

export function startPreviewThread(settings: ThreadSettings): PreviewThread {
  const thread = startTurnThread<ToThread, FromThread>({
    file: new URL('./thread.mjs', import.meta.url),
    name: 'preview',
    workerData: settings,
  });
  return {
    async make(request, { signal, progress }) {
      const reply = await thread.run(
        { kind: 'make', request },
        {
          signal,
          dropBy: { kind: 'drop' },
          isOnTheWay: (answer) => {
            if (answer.kind !== 'progress') return false;
            progress(answer.done, answer.of);
            return true;
          },
        },
      );
      if (reply === null || reply.kind === 'progress') return null;
      if (reply.kind === 'made') return reply.preview;
      const { code, detail, errors, retryAfterS, message } = reply;
      throw new SlipdriftError(code, detail, {
        errors,
        cause: new Error(message),
        ...(retryAfterS === null ? {} : { retryAfterS }),
      });
    },
    stop: () => thread.stop(),
  };
}
