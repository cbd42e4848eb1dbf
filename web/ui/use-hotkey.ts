import { useEffect } from 'react';

type Actions = Readonly<Record<string, (event: KeyboardEvent) => void>>;

/** Single keys for the whole page; they rest while text is typed, a dialog is open or a modifier is held. */
export function useHotkey(actions: Actions): void {
  useEffect(() => {
    const act = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      if (isTyping(event.target) || document.querySelector('dialog[open]') !== null) return;
      const action = actions[event.key];
      if (action === undefined) return;
      event.preventDefault();
      action(event);
    };
    document.addEventListener('keydown', act);
    return () => document.removeEventListener('keydown', act);
  }, [actions]);
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable) return true;
  if (target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && !['checkbox', 'radio', 'button'].includes(target.type);
}
