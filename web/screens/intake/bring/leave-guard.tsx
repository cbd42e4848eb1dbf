import { useBlocker } from '@tanstack/react-router';
import { AskDialog } from '#web/ui/ask-dialog.tsx';

/** Asks before a file that is being sent is cut off: on the way to another screen, on closing by the browser. */
export function LeaveGuard({ isSending }: { isSending: boolean }) {
  const blocker = useBlocker({
    shouldBlockFn: ({ current, next }) => isSending && current.pathname !== next.pathname,
    enableBeforeUnload: isSending,
    withResolver: true,
  });
  if (blocker.status !== 'blocked') return null;
  return (
    <AskDialog
      title="Leave while files are sent?"
      yes="Leave"
      no="Stay here"
      onYes={blocker.proceed}
      onNo={blocker.reset}
    >
      <p>
        What is under way breaks off. What was stored by then stays; brought again, nothing is stored twice.
      </p>
    </AskDialog>
  );
}
