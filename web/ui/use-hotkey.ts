import { useEffect } from 'react';

/** By key in small letters. An action that answers false leaves the key to the browser. */
type Actions = Readonly<Record<string, (event: KeyboardEvent) => unknown>>;

/** Single keys for the whole page; they rest while text is typed, a dialog is open or a modifier is held. */
export function useHotkey(actions: Actions): void {
  useEffect(() => {
    const act = (event: KeyboardEvent) => {
      if (event.defaultPrevented || event.ctrlKey || event.metaKey || event.altKey) return;
      if (isTyping(event.target) || document.querySelector('dialog[open]') !== null) return;
      const action = actions[event.key.toLowerCase()];
      if (action === undefined || action(event) === false) return;
      event.preventDefault();
    };
    document.addEventListener('keydown', act);
    return () => document.removeEventListener('keydown', act);
  }, [actions]);
}

function isTyping(target: EventTarget | null): boolean {
  if (!(target instanceof HTMLElement)) return false;
  if (target.isContentEditable) return true;
  if (target instanceof HTMLSelectElement || target instanceof HTMLTextAreaElement) return true;
  return target instanceof HTMLInputElement && target.type !== 'checkbox' && target.type !== 'button';
}
