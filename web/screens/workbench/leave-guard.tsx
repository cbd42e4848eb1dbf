import { useBlocker } from '@tanstack/react-router';
import { AskDialog } from '#web/ui/ask-dialog.tsx';

/** Asks before a text that nobody has kept is lost: on the way to another screen here, on closing by the browser. */
export function LeaveGuard({ isUnkept }: { isUnkept: boolean }) {
  const blocker = useBlocker({
    shouldBlockFn: ({ current, next }) => isUnkept && current.pathname !== next.pathname,
    enableBeforeUnload: isUnkept,
    withResolver: true,
  });
  if (blocker.status !== 'blocked') return null;
  return (
    <AskDialog
      title="Leave the table behind?"
      yes="Leave it"
      no="Stay here"
      onYes={blocker.proceed}
      onNo={blocker.reset}
    >
      <p>It is on this page alone. Keep it under a name if you want to come back to it.</p>
    </AskDialog>
  );
}
